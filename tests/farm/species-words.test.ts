// The words of a kind in every title of the herd's form: common practice of the trade, no source.
import { expect, test } from 'vitest'
import { type HerdKind, herdKinds } from '#farm/herd/herd-document.ts'
import { headWords, inSpecies, manyOf } from '#farm/herd/species-words.ts'
import { drawForm } from '#plan/form/draw.ts'
import type { FormNode } from '#plan/form/nodes.ts'
import { pointersOf } from '#plan/form/pointers.ts'
import { planSchema } from '#plan/plan.ts'
import { herdWords } from '#web/pages/farm/herd-words.ts'

const plan = planSchema.parse({ startMonth: '2027-01', household: { living: [] } })
const count = { month: '2027-02', breedingFemales: 3 }
const labels = (nodes: readonly FormNode[]): string[] =>
  nodes.flatMap((node) => {
    if (node.kind === 'hidden') return []
    const below = node.kind === 'group' ? node.children : node.kind === 'list' ? node.rows.flat() : []
    return [`${node.label}|${node.hint}`, ...labels(below)]
  })
const formOf = (kind: HerdKind | undefined) =>
  herdWords(drawForm({ path: ['farm', 'herds', 0], name: '' }, { kind, counts: [count] }, pointersOf(plan)))

test('once the kind is chosen no field speaks of females, males or young ones', () => {
  for (const kind of herdKinds)
    expect(labels(formOf(kind)).filter((said) => /\b(fe)?males?\b|\byoung\b/i.test(said))).toEqual([])
  expect(labels(formOf(undefined)).some((said) => said.includes('Breeding females'))).toBe(true)
})

test('cow, heifer, calf and bull; ewe and lamb; sow and pig; doe and kid; hen and chick', () => {
  const cattle = labels(formOf('cattle')).join('\n')
  for (const said of [
    'Cows then',
    'Heifers kept to breed then',
    'Bulls then',
    'Calves born alive per cow that calves',
    'A calf or steer sells for',
    'Cows to a bull',
  ])
    expect(cattle).toContain(said)
  expect(labels(formOf('sheep')).join('\n')).toContain('Lambs lost before weaning')
  expect(labels(formOf('pigs')).join('\n')).toContain('Sows to a boar')
  expect(labels(formOf('goats')).join('\n')).toContain('A kid sells for')
  expect(labels(formOf('sheep')).join('\n')).toContain('Months of lambing')
  expect(labels(formOf('goats')).join('\n')).toContain('Kids born alive per doe that kids')
  expect(labels(formOf('pigs')).join('\n')).toContain('Sows that conceive for a farrowing month')
  expect(labels(formOf('layers')).join('\n')).toContain('Eggs per hen per year')
})

test('no bird conceives, gives birth, is born or weaned, and no beast but a sheep has wool', () => {
  const layers = labels(formOf('layers')).join('\n')
  const strange = labels(formOf('layers')).filter((said) =>
    /conceiv|birth|\bborn\b|wean|wool|milk|hanging|\bherd\b/i.test(said),
  )
  expect(strange).toEqual([])
  expect(layers).toContain('Hens that hatch a brood in a hatching month')
  expect(layers).toContain('Out of the brooder at an age of')
  for (const kind of herdKinds)
    expect([kind, /wool/i.test(labels(formOf(kind)).join('\n'))]).toEqual([kind, kind === 'sheep'])
})

test('ducks, geese and turkeys have words of their own, and say that what holds when empty is of hens', () => {
  const ducks = labels(formOf('ducks')).join('\n')
  for (const said of [
    'Ducks then',
    'Drakes then',
    'Eggs per duck per year',
    'A duckling sells for',
    'Yield of eggs per duck per year',
  ])
    expect(ducks).toContain(said)
  expect(ducks).toContain('Grown birds lost in a year, percent|Empty: 10%, as for hens')
  expect(ducks).toContain('Rates|Empty: common practice for laying hens, for want of others')
  expect(labels(formOf('layers')).join('\n')).toContain('Grown birds lost in a year, percent|Empty: 10%\n')
  const geese = labels(formOf('geese')).join('\n')
  for (const said of ['Geese then', 'Ganders then', 'A gosling sells for', 'breeding flock'])
    expect(geese).toContain(said)
  const turkeys = labels(formOf('turkeys')).join('\n')
  for (const said of [
    'Turkey hens then',
    'Toms then',
    'Jennies kept to breed then',
    'Poults lost in the brooder',
  ])
    expect(turkeys).toContain(said)
  for (const kind of ['ducks', 'geese', 'turkeys'] as const)
    expect([
      kind,
      /\b(hen|chick|pullet|rooster)s?\b(?<!turkey hens?)/i.exec(
        labels(formOf(kind))
          .join('\n')
          .replaceAll(/as for hens|laying hens, for want/g, ''),
      ),
    ]).toEqual([kind, null])
  expect(headWords('young', ['geese'])).toBe('goslings')
  expect([manyOf('goose'), manyOf('turkey hen'), manyOf('bed')]).toEqual(['geese', 'turkey hens', 'beds'])
})

test('several kinds at once are named together, one head by its word for one', () => {
  expect(headWords('females', ['sheep', 'layers', 'sheep'])).toBe('ewes or hens')
  expect(headWords('young', ['goats'], 1)).toBe('kid')
  expect(headWords('males', [])).toBe('males')
  expect(inSpecies('From 3 breeding females', 'sheep')).toBe('From 3 ewes')
})
