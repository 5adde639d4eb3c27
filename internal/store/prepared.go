// SPDX-License-Identifier: MIT

package store

import (
	"context"
	"database/sql"
	"errors"
	"sync"
)

// pool is a pool of connections that prepares each query once for each of them.
// Reading the text of a query takes longer than finding a row by an index.
type pool struct {
	*sql.DB
	mu         sync.Mutex
	statements map[string]*sql.Stmt
}

// statement returns a prepared query; it stays open until the pool is closed.
func (p *pool) statement(ctx context.Context, query string) (*sql.Stmt, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if s := p.statements[query]; s != nil {
		return s, nil
	}
	s, err := p.DB.PrepareContext(ctx, query)
	if err != nil {
		return nil, err
	}
	if p.statements == nil {
		p.statements = map[string]*sql.Stmt{}
	}
	p.statements[query] = s
	return s, nil
}

// QueryContext runs one of the queries of this package.
func (p *pool) QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	s, err := p.statement(ctx, query)
	if err != nil {
		return nil, err
	}
	return s.QueryContext(ctx, args...)
}

// QueryRowContext runs one of the queries of this package that finds one row.
func (p *pool) QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row {
	s, err := p.statement(ctx, query)
	if err != nil {
		return p.DB.QueryRowContext(ctx, query, args...) // the row tells the error
	}
	return s.QueryRowContext(ctx, args...)
}

// Close closes the queries and the connections.
func (p *pool) Close() error {
	p.mu.Lock()
	defer p.mu.Unlock()
	var errs []error
	for _, s := range p.statements {
		errs = append(errs, s.Close())
	}
	p.statements = nil
	return errors.Join(append(errs, p.DB.Close())...)
}
