package workbench

import (
	"cmp"
	"encoding/json"
	"errors"
	"net/http"

	"rillwright/document"
)

// problem is what a caller gets that did not get what it asked for.
type problem struct {
	What string `json:"what"`
	Do   string `json:"do"`
}

func refuse(w http.ResponseWriter, status int, what, do string) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(problem{what, do}) // the caller is gone if this fails
}

// fail says why something on the shelf or in a text did not work.
func fail(w http.ResponseWriter, err error) {
	var p *document.Problem
	switch {
	case errors.As(err, &p):
		refuse(w, http.StatusUnprocessableEntity, p.What, cmp.Or(p.Do, "name one value of the file"))
	case errors.Is(err, errMissing):
		refuse(w, http.StatusNotFound, err.Error(), "look at the list again: it may have been moved or deleted")
	case errors.Is(err, errName):
		refuse(w, http.StatusBadRequest, "that name cannot be used", err.Error())
	case errors.Is(err, errLong):
		refuse(w, http.StatusUnprocessableEntity, err.Error(), "take out of it what is not the design")
	case errors.Is(err, errBytes):
		refuse(w, http.StatusUnprocessableEntity, err.Error(), "save it as UTF-8 in the program that wrote it")
	case errors.Is(err, errBuiltIn), errors.Is(err, errFolder):
		refuse(w, http.StatusForbidden, err.Error(), "start the program with a folder, and save a copy there")
	default:
		refuse(w, http.StatusInternalServerError, "the file could not be read or written: "+err.Error(), "check the folder and the room on the disk, then try again")
	}
}

// reply sends a value as JSON.
func reply(w http.ResponseWriter, v any) {
	data, err := json.Marshal(v)
	if err != nil {
		// A number that is not finite: a mistake of ours, not of the caller.
		refuse(w, http.StatusInternalServerError, "the result could not be written down: "+err.Error(), "report this with the design file")
		return
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_, _ = w.Write(data) // the caller is gone if this fails
}

// take reads a JSON body of one kind. Unknown keys are mistakes of the page.
func take[T any](w http.ResponseWriter, r *http.Request) (T, bool) {
	var v T
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(&v)
	if err == nil && d.More() {
		err = errors.New("something follows the end")
	}
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &long):
		refuse(w, http.StatusRequestEntityTooLarge, "the request is too long", "a design file of more than 256 KiB cannot be read")
	case err != nil:
		refuse(w, http.StatusBadRequest, "the request cannot be read: "+err.Error(), "load the page again")
	}
	return v, err == nil
}
