// SPDX-License-Identifier: MIT

package web

import (
	"context"
	"crypto/aes"
	"crypto/cipher"
	"crypto/rand"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"strings"

	"gyle/tasting"
)

// The key of a flight says which code is which beer. Until it is opened it isn't
// part of the document, which shows its commitment only. The book keeps it locked:
// the words that unlock it are shown once, to who fixes the design, and are kept
// nowhere. Who has the file of the book, or reads along with a paired device, has
// the box and not the words.

// keysSetting is the setting that holds the locked keys of a tasting; boxSetting
// says which tasting a box belongs to.
func keysSetting(slug string) string { return "tasting.keys." + slug }
func boxSetting(id string) string    { return "tasting.box." + id }

// lockedBox holds the keys of flights that were planned together.
type lockedBox struct {
	ID  string `json:"id"`
	Box []byte `json:"box"` // nonce and sealed text
}

// boxLetters is how many letters of the words name the box; the other ones unlock
// it. rand.Text gives 26 letters, 130 bits.
const boxLetters = 8

// LockTastingKeys keeps the keys of flights that were just planned and returns the
// words that unlock them. Nothing else does: they aren't kept.
func LockTastingKeys(ctx context.Context, b Book, slug string, keys map[string]*tasting.Key) (words string, err error) {
	text, err := KeysText(keys)
	if err != nil {
		return "", err
	}
	id, secret := strings.ToLower(rand.Text()[:boxLetters]), strings.ToLower(rand.Text())
	sealer, err := sealerOf(secret)
	if err != nil {
		return "", err
	}
	nonce := make([]byte, sealer.NonceSize())
	rand.Read(nonce) // never fails: it ends the program if the system has no random numbers
	boxes, err := lockedBoxes(ctx, b, slug)
	if err != nil {
		return "", err
	}
	boxes = append(boxes, lockedBox{id, sealer.Seal(nonce, nonce, text, []byte(id+"\x00"+slug))})
	kept, err := json.Marshal(boxes)
	if err != nil {
		return "", err
	}
	if err := b.SetSetting(ctx, keysSetting(slug), string(kept)); err != nil {
		return "", err
	}
	return id + "-" + secret, b.SetSetting(ctx, boxSetting(id), slug)
}

// sealerOf makes the lock of a secret. The secret is random and long: it needs no
// slow hash.
func sealerOf(secret string) (cipher.AEAD, error) {
	key := sha256.Sum256([]byte("gyle pourer\x00" + secret))
	block, err := aes.NewCipher(key[:])
	if err != nil {
		return nil, err
	}
	return cipher.NewGCM(block)
}

func lockedBoxes(ctx context.Context, b Book, slug string) (boxes []lockedBox, err error) {
	text, err := b.Setting(ctx, keysSetting(slug), "[]")
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal([]byte(text), &boxes); err != nil {
		return nil, fmt.Errorf("read the locked keys: %w", err)
	}
	return boxes, nil
}

// UnlockTastingKeys finds the tasting that words belong to and its keys. It returns
// [ErrNotFound] for any words that unlock nothing.
func UnlockTastingKeys(ctx context.Context, b Book, words string) (slug string, keys map[string]*tasting.Key, err error) {
	id, secret := wordsApart(words)
	if len(id) < boxLetters {
		return "", nil, ErrNotFound
	}
	if slug, err = b.Setting(ctx, boxSetting(id), ""); err != nil || slug == "" {
		return "", nil, errors.Join(err, ErrNotFound)
	}
	boxes, err := lockedBoxes(ctx, b, slug)
	if err != nil {
		return "", nil, err
	}
	sealer, err := sealerOf(secret)
	if err != nil {
		return "", nil, err
	}
	for _, box := range boxes {
		if box.ID != id || len(box.Box) < sealer.NonceSize() {
			continue
		}
		nonce, sealed := box.Box[:sealer.NonceSize()], box.Box[sealer.NonceSize():]
		text, err := sealer.Open(nil, nonce, sealed, []byte(id+"\x00"+slug))
		if err != nil {
			return "", nil, ErrNotFound
		}
		keys, err := ParseKeys(text)
		return slug, keys, err
	}
	return "", nil, ErrNotFound
}

// wordsApart reads words as they are typed: capitals, spaces, dashes, or the whole
// link.
func wordsApart(words string) (id, secret string) {
	if i := strings.LastIndex(words, "/"); i >= 0 {
		words = words[i+1:]
	}
	letters := strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' || '0' <= r && r <= '9' {
			return r
		}
		return -1
	}, strings.ToLower(words))
	if len(letters) < boxLetters {
		return "", ""
	}
	return letters[:boxLetters], letters[boxLetters:]
}

// UnlockAll unlocks the keys of one tasting by one or more sets of words.
func UnlockAll(ctx context.Context, b Book, slug string, words ...string) (map[string]*tasting.Key, error) {
	all := map[string]*tasting.Key{}
	for _, one := range words {
		of, keys, err := UnlockTastingKeys(ctx, b, one)
		if errors.Is(err, ErrNotFound) || err == nil && of != slug {
			return nil, errKeyAway
		}
		if err != nil {
			return nil, err
		}
		maps.Copy(all, keys)
	}
	return all, nil
}
