// What a thing of the inventory cannot be, and whether a closed year has it.
import { type Day, dayName } from '#calendar/day.ts'
import { monthOfYear, yearIn, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import type { Books } from '#db/open.ts'
import type { SideId } from '#ledger/account.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { quantityLeft } from '#ledger/reports/sold-parts.ts'
import { type Holding, type HoldingKind, hasKnownBonus, wearsOut } from '#ledger/reports/stock-inventory.ts'
import type { Cents } from '#money/cents.ts'
import { isListed, takesSection179 } from '#rules/depreciation/recovery.ts'
import { firstBonusYear } from '#rules/depreciation/write-offs.ts'

export type HoldingDraft = Omit<
  Holding,
  'id' | 'disposedDay' | 'disposedForCents' | 'parts' | 'partOf' | 'loweredCents'
> & {
  disposedDay?: Day | null
  disposedForCents?: Cents | null
  /** Day of the market value; without one the value counts in every year until one has a day. */
  valuedDay?: Day | null
}

/** The last closed year in which the thing was held at some time; null where it stands in none. */
export const closedYearWith = (
  books: Books,
  sideId: SideId,
  { acquiredDay, disposedDay }: Holding,
): number | null => {
  const closed = closedThrough(books, sideId)
  const span = spanOfBooks(books)
  if (closed === null || span === null) return null
  const lastClosed = monthOfYear(closed) === 12 ? yearOf(closed) : yearOf(closed) - 1
  const last = Math.min(lastClosed, disposedDay === null ? lastClosed : yearIn(disposedDay))
  return last >= Math.max(yearIn(acquiredDay), yearOf(span.first)) ? last : null
}

/** What a thing of which parts were sold can no longer be. */
export const partProblems = (draft: HoldingDraft, { parts = [] }: Pick<Holding, 'parts'>): FieldProblem[] => {
  const [first, last] = [parts[0], parts.at(-1)]
  if (!first || !last) return []
  const problems: FieldProblem[] = []
  const add = (path: string, message: string) => problems.push({ path, message })
  const gone = Math.round((draft.quantity - quantityLeft({ quantity: draft.quantity, parts })) * 1e6) / 1e6
  if (quantityLeft({ quantity: draft.quantity, parts }) <= 0)
    add(
      'quantity',
      `${gone} of it were sold by themselves: enter how many there were with them, more than that`,
    )
  const since = draft.inServiceDay ?? draft.acquiredDay
  if (since > first.disposedDay)
    add(
      draft.inServiceDay ? 'inServiceDay' : 'acquiredDay',
      `A part of it was sold on ${dayName(first.disposedDay)}: enter a day before`,
    )
  if (draft.disposedDay && draft.disposedDay < last.disposedDay)
    add(
      'disposedDay',
      `A part of it was sold on ${dayName(last.disposedDay)}: the rest went on that day or later`,
    )
  if (draft.depreciation?.useShares)
    add(
      `use.y${Object.keys(draft.depreciation.useShares)[0]}`,
      'What is driven privately too is sold as a whole. Undo the sale of a part first, or leave this empty',
    )
  if (draft.writtenOffBefore && draft.writtenOffBefore.through >= yearIn(first.disposedDay))
    add('returnedThrough', 'Enter a year before a part of it was sold: the year of a sale is worked out here')
  return problems
}

/** By kind, why it takes no class. */
const notWrittenOff: Partial<Record<HoldingKind, string>> = {
  land: 'Land is not written off (26 CFR 1.167(a)-2). Choose None, and list what was built or planted on it as a thing of its own',
  market_stock:
    'Stock for sale is not written off: its cost counts in the year it is sold. Choose None, or another kind if it is kept for breeding',
  produce: 'Produce is not written off. Choose None',
  supplies: 'Supplies are not written off: they count as they are used. Choose None',
}

export const holdingProblems = (draft: HoldingDraft): FieldProblem[] => {
  const problems: FieldProblem[] = []
  const add = (path: string, message: string) => problems.push({ path, message })
  if (draft.name.trim() === '') add('name', 'Give it a name, like walking tractor')
  if (!(draft.quantity > 0)) add('quantity', 'Enter how many, like 1')
  if (draft.costCents < 0) add('cost', 'Enter what it cost, 0 or more')
  if (draft.raised && draft.costCents > 0)
    add('cost', 'Enter 0 for what was raised here: its costs were deducted as they came')
  const { depreciation } = draft
  if (depreciation && !wearsOut(draft.kind)) add('assetClass', notWrittenOff[draft.kind] ?? '')
  if (depreciation && draft.raised && depreciation.section179Cents > 0)
    add('section179', 'Enter 0 for what was raised here: it has no cost to deduct')
  if (depreciation && depreciation.section179Cents > 0 && !takesSection179(depreciation.assetClass))
    add('section179', 'Section 179 does not cover buildings. Enter 0')
  if (depreciation?.bonus && !hasKnownBonus(draft))
    add(
      'bonus',
      `Bonus depreciation is kept here from ${firstBonusYear} on. Leave the box empty, and enter what was deducted at once above`,
    )
  if (depreciation && depreciation.section179Cents > draft.costCents)
    add('section179', 'Enter no more than the cost')
  if (depreciation?.useShares && !isListed(depreciation.assetClass))
    add(
      `use.y${Object.keys(depreciation.useShares)[0]}`,
      'Only what carries people is entered by its use. Leave this empty, and enter the business part of the cost above',
    )
  problems.push(...returnedProblems(draft))
  if (draft.inServiceDay && draft.inServiceDay < draft.acquiredDay)
    add('inServiceDay', 'Enter a day on or after the day it was bought')
  if (draft.disposedDay && draft.disposedDay < (draft.inServiceDay ?? draft.acquiredDay))
    add('disposedDay', 'Enter a day after it came into use')
  if (draft.disposedForCents && !draft.disposedDay) add('disposedDay', 'Enter the day it was sold')
  return problems
}

const returnedProblems = (draft: HoldingDraft): FieldProblem[] => {
  const { writtenOffBefore: before, kind, raised, costCents } = draft
  if (!before) return []
  const used = yearIn(draft.inServiceDay ?? draft.acquiredDay)
  const amount =
    before.amountCents < 0 || before.amountCents > costCents
      ? 'Enter no more than it cost'
      : raised || !wearsOut(kind)
        ? 'Leave this empty: nothing of it is written off'
        : null
  const last = draft.disposedDay ? yearIn(draft.disposedDay) - 1 : 9999
  const through =
    before.through < used
      ? `It came into use in ${used}: enter the year of a return since then`
      : before.through > last
        ? 'Enter a year before it was sold: the year of the sale is worked out here'
        : null
  return [
    ...(amount === null ? [] : [{ path: 'returned', message: amount }]),
    ...(through === null ? [] : [{ path: 'returnedThrough', message: through }]),
  ]
}
