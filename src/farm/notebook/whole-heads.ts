// Whether a batch is counted by whole heads: of birds and beasts no half ever leaves, of beds and pounds it may.
import { speciesWords } from '#farm/herd/species-words.ts'

/** What people call stock beside the words of herds (common practice of the trade, no source). */
const otherStock = [
  ...['animal', 'head', 'beast', 'bird', 'litter', 'hive', 'colony'],
  ...['broiler', 'layer', 'cockerel', 'capon', 'poult', 'turkey', 'duck', 'duckling', 'goose', 'gosling'],
  ...['quail', 'guinea', 'keet', 'rabbit', 'fryer', 'piglet', 'hog', 'shoat', 'barrow', 'wether', 'steer'],
  ...['bullock', 'stocker', 'feeder', 'weaner', 'fish', 'trout'],
]
const irregular: Readonly<Record<string, string>> = {
  geese: 'goose',
  calves: 'calf',
  colonies: 'colony',
  oxen: 'ox',
}

const stock = new Set([
  ...otherStock,
  ...Object.values(speciesWords).flatMap((words) => Object.values(words).flatMap(([one]) => one.split(' '))),
])

/** By the last word of the unit: `meat birds`, `ewe lambs`, `head`. */
export const isCountedByHead = (unit: string): boolean => {
  const last = unit.trim().toLowerCase().split(/\s+/).at(-1) ?? ''
  return [last, irregular[last] ?? '', last.replace(/s$/, '')].some((word) => stock.has(word))
}
