// SPDX-License-Identifier: MIT

package store

// The queries behind pages. Each finds its rows by an index, whatever the size of
// the book, and goes on after the last row of the page before instead of counting
// from the start; a test explains each of them and refuses a scan or a sort.
const (
	queryCurrent = `
		SELECT d.id, r.id, r.number, r.at, r.act, r.author, r.why, r.title, r.text, d.touched
		FROM document d
		JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.kind = ?1 AND d.slug = ?2`

	queryRevision = `
		SELECT r.number, r.at, r.act, r.author, r.why, r.title, r.text
		FROM document d
		JOIN revision r ON r.document = d.id
		WHERE d.kind = ?1 AND d.slug = ?2 AND r.number = ?3`

	queryHistory = `
		SELECT r.number, r.at, r.act, r.author, r.why, r.title, ''
		FROM document d
		JOIN revision r ON r.document = d.id
		WHERE d.kind = ?1 AND d.slug = ?2 AND r.number < ?3
		ORDER BY r.number DESC
		LIMIT ?4`

	queryByTitle = `
		SELECT d.kind, d.slug, d.title, d.revision, r.at, d.touched, r.act, r.author, r.why
		FROM document d
		CROSS JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.kind = ?1 AND d.deleted = 0
			AND (d.title COLLATE NOCASE, d.slug) > (?2, ?3)
		ORDER BY d.title COLLATE NOCASE, d.slug
		LIMIT ?4`

	queryTitled = `
		SELECT d.slug, r.number, r.at, r.act, r.author, r.why, r.title, r.text
		FROM document d
		CROSS JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.kind = ?1 AND d.deleted = 0
			AND d.title COLLATE NOCASE >= ?2 AND d.title COLLATE NOCASE < ?3
		ORDER BY d.title COLLATE NOCASE, d.slug
		LIMIT ?4`

	queryByTouch = `
		SELECT d.kind, d.slug, d.title, d.revision, r.at, d.touched, r.act, r.author, r.why
		FROM document d
		CROSS JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.kind = ?1 AND d.deleted = 0
			AND (d.touched, d.slug) < (?2, ?3)
		ORDER BY d.touched DESC, d.slug DESC
		LIMIT ?4`

	queryRecent = `
		SELECT d.kind, d.slug, d.title, d.revision, r.at, d.touched, r.act, r.author, r.why
		FROM document d
		CROSS JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.touched <= ?1
		ORDER BY d.touched DESC, d.id DESC
		LIMIT ?2`

	queryDeleted = `
		SELECT d.kind, d.slug, d.title, d.revision, r.at, d.touched, r.act, r.author, r.why
		FROM document d
		CROSS JOIN revision r ON r.document = d.id AND r.number = d.revision
		WHERE d.deleted = 1 AND d.touched <= ?1
		ORDER BY d.touched DESC, d.id DESC
		LIMIT ?2`

	// The words of the query stand in ?1; one more row than the page tells
	// whether there is a next page.
	querySearch = `
		SELECT r.id, d.kind, d.slug, r.title, r.text
		FROM search s
		CROSS JOIN revision r ON r.id = s.rowid
		CROSS JOIN document d ON d.id = r.document
		WHERE s.search MATCH ?1 AND s.rowid < ?2
		ORDER BY s.rowid DESC
		LIMIT ?3`

	querySearchTitle = `
		SELECT r.id, d.kind, d.slug, r.title, r.text
		FROM search_title s
		CROSS JOIN revision r ON r.id = s.rowid
		CROSS JOIN document d ON d.id = r.document
		WHERE s.search_title MATCH ?1 AND s.rowid < ?2
		ORDER BY s.rowid DESC
		LIMIT ?3`

	queryReferrers = `
		SELECT f.from_kind, f.from_slug, d.title, f.kind, f.slug, f.field, f.broken
		FROM reference f
		CROSS JOIN document d ON d.kind = f.from_kind AND d.slug = f.from_slug AND d.deleted = 0
		WHERE f.kind = ?1 AND f.slug = ?2
			AND (f.from_kind, f.from_slug, f.field) > (?3, ?4, ?5)
		ORDER BY f.from_kind, f.from_slug, f.field
		LIMIT ?6`

	queryReferrerCount = `
		SELECT count(*)
		FROM reference f
		CROSS JOIN document d ON d.kind = f.from_kind AND d.slug = f.from_slug AND d.deleted = 0
		WHERE f.kind = ?1 AND f.slug = ?2`

	queryBrews = `
		SELECT d.slug, d.revision, (SELECT coalesce(max(seq), 0) FROM event WHERE gyle = d.id)
		FROM reference f
		CROSS JOIN document d ON d.kind = f.from_kind AND d.slug = f.from_slug AND d.deleted = 0
		WHERE f.kind = ?1 AND f.slug = ?2 AND f.from_kind = 'gyle'
		ORDER BY f.from_slug`

	queryNamed = `
		SELECT f.from_kind, f.from_slug, d.title, f.kind, f.slug, f.field, f.broken
		FROM reference f
		CROSS JOIN document d ON d.kind = f.from_kind AND d.slug = f.from_slug
		WHERE f.from_kind = ?1 AND f.from_slug = ?2
		ORDER BY f.kind, f.slug, f.field`

	queryBroken = `
		SELECT f.from_kind, f.from_slug, d.title, f.kind, f.slug, f.field, f.broken
		FROM reference f
		CROSS JOIN document d ON d.kind = f.from_kind AND d.slug = f.from_slug AND d.deleted = 0
		WHERE f.broken = 1
			AND (f.from_kind, f.from_slug, f.kind, f.slug, f.field) > (?1, ?2, ?3, ?4, ?5)
		ORDER BY f.from_kind, f.from_slug, f.kind, f.slug, f.field
		LIMIT ?6`

	queryGyle = `
		SELECT id, deleted, touched
		FROM document
		WHERE kind = 'gyle' AND slug = ?1`

	queryLastSeq = `
		SELECT coalesce(max(seq), 0)
		FROM event
		WHERE gyle = ?1`

	queryEventByToken = `
		SELECT seq, at, recorded, kind, author, coalesce(corrects, 0), coalesce(token, ''), body
		FROM event
		WHERE gyle = ?1 AND token = ?2`

	queryEvents = `
		SELECT seq, at, recorded, kind, author, coalesce(corrects, 0), coalesce(token, ''), body
		FROM event
		WHERE gyle = ?1 AND seq > ?2
		ORDER BY seq
		LIMIT ?3`

	queryEventsOfKind = `
		SELECT seq, at, recorded, kind, author, coalesce(corrects, 0), coalesce(token, ''), body
		FROM event
		WHERE gyle = ?1 AND kind = ?4 AND seq > ?2
		ORDER BY seq
		LIMIT ?3`

	queryLastEvents = `
		SELECT seq, at, recorded, kind, author, coalesce(corrects, 0), coalesce(token, ''), body
		FROM event
		WHERE gyle = ?1 AND seq < ?2
		ORDER BY seq DESC
		LIMIT ?3`

	queryLastEventsOfKind = `
		SELECT seq, at, recorded, kind, author, coalesce(corrects, 0), coalesce(token, ''), body
		FROM event
		WHERE gyle = ?1 AND kind = ?4 AND seq < ?2
		ORDER BY seq DESC
		LIMIT ?3`

	querySetting = `
		SELECT value
		FROM setting
		WHERE key = ?1`
)
