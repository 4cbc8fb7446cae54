// Twenty ewes of one's own that neither breed nor die and ask for nothing: all that happens to them is what a test does.
export const stillEwes = (start: string, cullFemale: number) => ({
  id: 'ewes',
  kind: 'sheep',
  name: 'Ewes',
  start,
  breedingFemales: 20,
  males: 0,
  ownedAlready: true,
  carryingLimit: 20,
  rates: { conception: 0, cullPerYear: 0, adultLossPerYear: 0, femalesPerMale: 0 },
  prices: { cullFemale, breedingFemale: 0, male: 0 },
  costPerFemale: 0,
  hoursPerFemale: 0,
  hoursFixed: 0,
})
