// Short rows of figures set back to nothing.

/** For the few numbers of a year or a person: `fill` leaves the code made quick, which takes longer than writing them. */
export const empty = (values: Float64Array, from = 0): void => {
  for (let k = from; k < values.length; k += 1) values[k] = 0
}
