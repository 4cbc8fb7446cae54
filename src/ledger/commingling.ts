// The commingling watch: spending that looks like the household's in the farm's books, and the other way round.
// What a word means is common practice, not law: each find is a question to the people, never a change.
import type { SideKind } from './account.ts'

export interface WatchedLine {
  postingId: number
  sideKind: SideKind
  payee: string
  memo: string
  accountName: string
}

export interface Suspicion<Line extends WatchedLine> {
  line: Line
  /** Whose spending it looks like. */
  looksLike: 'farm' | 'household'
  because: string
}

/** How often a payee was on each side, over all the books: what people did before outweighs any word list. */
export type PayeeHistory = (payee: string) => { farm: number; household: number }

const habitFrom = 3

/** Suspicions in the order of the lines. A venture's lines are watched like the farm's. */
export const watchCommingling = <Line extends WatchedLine>(
  lines: readonly Line[],
  history: PayeeHistory,
): Suspicion<Line>[] => lines.flatMap((line) => suspicionOf(line, history) ?? [])

const suspicionOf = <Line extends WatchedLine>(line: Line, history: PayeeHistory): Suspicion<Line> | null => {
  const atHome = line.sideKind === 'household'
  const looksLike = atHome ? 'farm' : 'household'
  const habit = history(line.payee)
  const [here, there] = atHome ? [habit.household, habit.farm] : [habit.farm, habit.household]
  if (line.payee !== '' && there >= habitFrom && there >= here * 3)
    return { line, looksLike, because: `“${line.payee}” was ${looksLike} spending ${there} times before` }
  // What people keep paying from these books is their habit, whatever the words say.
  if (here >= habitFrom && here > there) return null
  const words = atHome ? farmWords : householdWords
  const found = wordsOf(`${line.payee} ${line.memo}`).find((word) => words.has(word))
  return found ? { line, looksLike, because: `“${found}” is more often ${looksLike} spending` } : null
}

const wordsOf = (text: string): string[] => text.toLowerCase().match(/\p{L}{3,}/gu) ?? []

/** Common practice, no source. */
const householdWords = new Set(
  'grocery groceries supermarket pharmacy drugstore dentist doctor clinic optician school daycare toys clothing clothes shoes haircut salon cinema movie movies streaming restaurant pizza bakery birthday gift gifts vacation hotel rent mortgage furniture mattress diapers toothpaste shampoo'.split(
    ' ',
  ),
)

/** Common practice, no source. */
const farmWords = new Set(
  'feed hay straw seed seeds seedling seedlings fertilizer compost lime fence fencing tractor implement irrigation drip greenhouse livestock vet veterinary ewe ewes lamb lambs hive hives frames beekeeping clamshells cartons pots mulch trellis slaughter processor'.split(
    ' ',
  ),
)
