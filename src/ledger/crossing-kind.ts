// The kinds of crossing: which way value may go and which accounts on the two sides stand for it.
import { type CrossingRole, householdSide, type SideId } from './account.ts'

export const crossingKinds = [
  'draw',
  'contribution',
  'reimbursement',
  'loan',
  'repayment',
  'goods_used_at_home',
] as const
export type CrossingKind = (typeof crossingKinds)[number]

export const crossingKindNames: Record<CrossingKind, string> = {
  draw: 'Owner’s draw',
  contribution: 'Owner’s contribution',
  reimbursement: 'Reimbursement',
  loan: 'Loan between sides',
  repayment: 'Loan repayment',
  goods_used_at_home: 'Farm goods used at home',
}

/** The account that stands for the other side: first in the books the value leaves, then in those it reaches. */
export const crossingRolesOf: Record<CrossingKind, { leaving: CrossingRole; reaching: CrossingRole }> = {
  draw: { leaving: 'draws', reaching: 'draws' },
  contribution: { leaving: 'contributions', reaching: 'contributions' },
  reimbursement: { leaving: 'reimbursements', reaching: 'reimbursements' },
  loan: { leaving: 'lent', reaching: 'borrowed' },
  repayment: { leaving: 'borrowed', reaching: 'lent' },
  goods_used_at_home: { leaving: 'goods', reaching: 'goods' },
}

/** Which way a kind may go: owners draw to and contribute from the household; loans may lie between any two sides. */
export const directionProblem = (kind: CrossingKind, from: SideId, to: SideId): string | null => {
  if (from === to) return 'Choose two different sides'
  switch (kind) {
    case 'draw':
    case 'reimbursement':
    case 'goods_used_at_home':
      return to === householdSide
        ? null
        : `${crossingKindNames[kind]} goes to the household. Choose a household account to receive it, or record a loan`
    case 'contribution':
      return from === householdSide
        ? null
        : 'Owner’s contribution comes from the household. Choose a household account to pay it, or record a loan'
    case 'loan':
    case 'repayment':
      return null
  }
}
