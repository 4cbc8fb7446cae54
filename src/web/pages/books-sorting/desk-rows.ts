// A waiting line as the desk shows it: its facts, and its proposal in words with why.
import { dayName, monthOfDay } from '#calendar/day.ts'
import { type Month, monthName } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import type { DeskLine } from '#db/statements/sorting-desk.ts'
import { crossingKindNames } from '#ledger/crossing-kind.ts'
import type { LoanParts } from '#ledger/loan-payment.ts'
import { wantsTick } from '#ledger/statements/corrected-line.ts'
import { likelyCrossing } from '#ledger/statements/sorted-parts.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import { otherKindOfFile } from '#ledger/statements/twin-lines.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { loanBook, proposedParts } from '#today/loan-terms.ts'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import { sharesName, type TargetGround, targetName, targetValue } from './sorting-targets.ts'
import { whyWords } from './why-words.ts'

/** `closed`: the last month closed on the line's side. `split`: what a loan's terms make of it, where it is proposed for that loan. */
export const deskRow = (
  { line, proposal }: DeskLine,
  ground: TargetGround,
  closed: Month | null,
  split?: LoanParts,
): DeskRow => {
  // What the books hold already is matched in a closed month too.
  const isShut = closed !== null && monthOfDay(line.day) <= closed && proposal?.kind !== 'entry'
  const shown = proposal && proposalRow(line, proposal, ground, split)
  const side = ground.sides.find((each) => each.id === line.sideId)
  return {
    id: line.id,
    accountId: line.accountId,
    account: line.accountName,
    side: { name: side?.name ?? '', kind: side?.kind ?? 'venture' },
    day: line.day,
    amount: line.amount,
    payee: line.payee,
    memo: line.memo,
    checkNumber: line.checkNumber,
    hasEarlier: line.correctsId !== null,
    isLikelyTwin: line.note.endsWith(otherKindOfFile),
    doubt: line.state === 'doubtful' ? line.note || 'The books may have it already' : '',
    closed: isShut ? monthName(closed) : '',
    proposal: shown && { ...shown, isSure: shown.isSure && !isShut },
  }
}

/** As the desk's list has it. */
const proposalValue = (proposal: NonNullable<DeskLine['proposal']>): string => {
  if (proposal.kind === 'entry') return `e:${proposal.postingId}`
  if (proposal.kind === 'transfer') return `t:${proposal.otherLine.id}`
  return proposal.split ? `s:${proposal.proposal.ruleId}` : targetValue(proposal.proposal.target)
}

const proposalRow = (
  line: DeskLine['line'],
  proposal: NonNullable<DeskLine['proposal']>,
  ground: TargetGround,
  split: LoanParts | undefined,
): DeskRow['proposal'] => {
  const isCorrected = wantsTick(line.note)
  if (proposal.kind === 'entry')
    return {
      value: proposalValue(proposal),
      places: [],
      says: `In the books: ${proposal.payee || proposal.memo || 'an entry'}, ${dayName(proposal.day)}`,
      why: 'The same amount in this account, so nothing is booked twice',
      isSure: true,
    }
  if (proposal.kind === 'transfer') {
    const { otherLine } = proposal
    const isEither = isCorrected || wantsTick(otherLine.note)
    const [from, to] = line.amount < 0 ? [line, otherLine] : [otherLine, line]
    const what = from.sideId === to.sideId ? 'Transfer' : crossingKindNames[likelyCrossing(from, to)]
    return {
      value: proposalValue(proposal),
      places: [],
      says: `${what}: ${from.accountName} to ${to.accountName}`,
      why: isEither
        ? line.note || otherLine.note
        : proposal.isLearned
          ? `As you chose for these two before; the other half is in the statement of ${otherLine.accountName}, ${dayName(otherLine.day)}`
          : proposal.isTold
            ? `The other half is in the statement of ${otherLine.accountName}, ${dayName(otherLine.day)}. Both become one`
            : `The same amount is in the statement of ${otherLine.accountName}, ${dayName(otherLine.day)}, and nothing else says so; please check`,
      isSure: proposal.isTold && !isEither,
    }
  }
  return {
    value: proposalValue(proposal),
    places: (proposal.habit?.places ?? []).map(targetValue),
    says: proposal.split
      ? sharesName(proposal.split, ground, line.sideId)
      : `${targetName(proposal.proposal.target, ground, line.sideId)}${split ? `: ${splitWords(split)}` : ''}`,
    why: `${isCorrected ? line.note : whyWords(proposal)}${split ? '; split by the loan’s terms, and changed under “Split”' : ''}${comesFromBroker(line, proposal.proposal.target, ground) ? '; what was gained by selling is not in it: the broker’s 1099-B has that' : ''}`,
    isSure: proposal.isSure && !isCorrected,
  }
}

const comesFromBroker = (
  { amount }: DeskLine['line'],
  target: SortingTarget,
  { accounts }: TargetGround,
): boolean =>
  amount > 0 &&
  target.kind === 'account' &&
  accounts.find(({ id }) => id === target.accountId)?.savingsKind === 'taxable'

export const groundOf = (books: Books): TargetGround => ({
  accounts: listAccounts(books, { withArchived: true }),
  sides: listSides(books),
})

const splitWords = ({ interestCents, escrowCents, principalCents }: LoanParts): string =>
  `interest ${formatCents(interestCents)}, ${escrowCents > 0 ? `taxes and insurance ${formatCents(escrowCents)}, ` : ''}principal ${formatCents(principalCents)}`

/** The parts of lines that are proposed for a loan with terms, by the id of the line: one payment after the other. */
export const loanSplits = (books: Books, lines: readonly DeskLine[]): Map<number, LoanParts> => {
  const terms = loanBook(books)
  const payments = lines.flatMap(({ line, proposal }) => {
    const target = proposal?.kind === 'rule' ? proposal.proposal.target : null
    return target?.kind === 'account' && terms.has(target.accountId) && line.amount < 0
      ? [{ id: line.id, loanAccountId: target.accountId, day: line.day, size: cents(-line.amount) }]
      : []
  })
  return payments.length === 0 ? new Map() : proposedParts(books, terms, payments)
}
