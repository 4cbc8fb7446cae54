// Kept lines that no line of a file answered to: a new line that looks like one of them may be the same movement.
import type { Day } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import type { KeptLine } from './kept-line.ts'
import { type StatementLine, textOfLine } from './statement.ts'

/** How the doubt about a movement ends that came in by OFX and CSV both. */
export const otherKindOfFile = 'is in the books from another kind of file'

export class TwinPool {
  #byContent = new Map<string, KeptLine[]>()
  #byMoney = new Map<string, KeptLine[]>()
  #taken = new Set<KeptLine>()

  add(line: KeptLine): void {
    push(this.#byContent, contentOf(line), line)
    push(this.#byMoney, `${line.day}|${line.amount}`, line)
  }

  /** The same day, amount and text under another bank number. */
  renumbered(line: StatementLine): string | null {
    if (!hasNumber(line.bankNumber)) return null
    const same = this.#byContent
      .get(contentOf({ ...line, text: textOfLine(line) }))
      ?.filter((each) => hasNumber(each.bankNumber))
    return this.#next(same)
      ? 'A transaction of the same day, amount and text is in the books under another bank number'
      : null
  }

  /** A file with numbers and one without (OFX and CSV of one account) word the same movement differently. */
  fromOtherKind(line: StatementLine): string | null {
    const numbered = hasNumber(line.bankNumber)
    const other = this.#byMoney
      .get(`${line.day}|${line.amount}`)
      ?.filter((each) => hasNumber(each.bankNumber) !== numbered)
    const same = this.#next(other)
    return same ? `“${same.text}”, of the same day and amount, ${otherKindOfFile}` : null
  }

  hasTaken(line: KeptLine): boolean {
    return this.#taken.has(line)
  }

  #next(lines: KeptLine[] | undefined): KeptLine | null {
    const free = lines?.find((each) => !this.#taken.has(each)) ?? null
    if (free) this.#taken.add(free)
    return free
  }
}

/** Fillers that banks write where they have no number. */
export const hasNumber = (bankNumber: string): boolean =>
  bankNumber !== '' && !/^(0+|none|null|nonref|n\/?a|-+)$/i.test(bankNumber)

export const contentOf = (line: { day: Day; amount: Cents; text: string }): string =>
  `${line.day}|${line.amount}|${line.text.toLowerCase()}`

const push = (map: Map<string, KeptLine[]>, key: string, line: KeptLine): void => {
  const list = map.get(key)
  if (list) list.push(line)
  else map.set(key, [line])
}
