// From blue over grey to yellow, for what gives little to what gives much: told apart
// with every kind of sight, and in grey.
export const shades = ["#00306f", "#575d6d", "#a59c74", "#ffea46"]
