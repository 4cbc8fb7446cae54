// Figures of a page whose parts are worked out when first asked for, each by itself: one that breaks leaves the others standing.

export type PartMakers<Figures extends object> = { [Name in keyof Figures]: () => Figures[Name] }

/** What a part throws, it throws where it is asked for: in the view's own place, or in its own place in the JSON. */
export const byPart = <Figures extends object>(makers: PartMakers<Figures>): Figures => {
  const figures = {} as Figures
  for (const name of Object.keys(makers) as (keyof Figures)[])
    Object.defineProperty(figures, name, { enumerable: true, get: lazily(makers[name]) })
  return figures
}

/** More figures beside those of a page; none is asked for by putting them together, as a spread would. */
export const withMore = <Figures extends object, More extends object>(
  figures: Figures,
  more: More,
): Figures & More =>
  Object.defineProperties({} as Figures & More, {
    ...Object.getOwnPropertyDescriptors(figures),
    ...Object.getOwnPropertyDescriptors(more),
  })

/** Worked out at the first call and kept. */
export const lazily = <Value>(make: () => Value): (() => Value) => {
  let made: { value: Value } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}
