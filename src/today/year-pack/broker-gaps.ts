// What came from invested savings in the year: its gain is the broker's to tell, and an open point until the return is made.
import type { Books } from '#db/open.ts'
import { takenFromBroker } from '#db/tax/taken-from-broker.ts'
import { formatCents } from '#money/format.ts'
import type { YearPackFigures } from './figures.ts'

/** Gains of sold shares are taxed by basis and time held, which books of cash do not have (26 USC 1001, 1222; Schedule D, Form 1099-B). */
export const brokerGaps = (books: Books, year: number): YearPackFigures['gaps'] =>
  takenFromBroker(books, year).map(({ accountId, name, cents }) => ({
    says: `${formatCents(cents)} came from “${name}” in the year. If something was sold for it, its gain or loss is not known here and not in the worksheet: the broker’s form 1099-B has it for Schedule D. Keep that form with the pack.`,
    href: `/books/accounts/${accountId}`,
  }))
