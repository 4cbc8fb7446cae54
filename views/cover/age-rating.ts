// The places that rate premiums by age in their own way, in words: for the form's list and the note under the chart.

/** Names by the two letters of the plan; the federal curve first. */
export const ageRatingNames: Readonly<Record<string, string>> = {
  federal: 'By the federal curve, as most states do',
  AL: 'Alabama’s curve',
  DC: 'The District of Columbia’s curve',
  MA: 'Massachusetts’s curve',
  MN: 'Minnesota’s curve',
  MS: 'Mississippi’s curve',
  NY: 'New York: by the family, not by age',
  OR: 'Oregon’s curve',
  UT: 'Utah’s curve',
  VT: 'Vermont: by the family, not by age',
}

const noAge = new Set(['NY', 'VT'])

/** How the premiums on the page follow age. */
export const ageRatingNote = (place: string): string => {
  if (noAge.has(place))
    return `${ageRatingNames[place]}: every adult pays the same, and children under 26 together add one amount (CMS, state rating variations).`
  const own = place === 'federal' ? undefined : ageRatingNames[place]
  const curve =
    own === undefined
      ? 'By the federal age curve (45 CFR 147.102)'
      : `By ${own.replace('The District', 'the District')} (CMS, State Specific Age Curve Variations)`
  return `${curve}, by the age on January 1. Of dependents under 21, only the three oldest count. Some states rate ages in their own way: the form says whose way is used.`
}
