// Money moved that leaves less than nothing in an account of cash: a form asks once, and books it when it is meant.
import type { Day } from '#calendar/day.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import type { EntryRecord } from '#db/ledger/entry-reader.ts'
import { wasCarriedOut } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { isCash } from '#ledger/account.ts'
import { addCents, type Cents, negateCents } from '#money/cents.ts'
import { overdrawKey, overdrawQuestion, sureOverdraws } from '#views/parts/overdraw.tsx'
import type { FormErrors, TypedForm } from './form.ts'

export interface Leaving {
  formId: string
  day: Day
  fromAccountId: number
  amountCents: Cents
  /** The entry it stands in for, whose amount is there again. */
  instead?: EntryRecord
}

/**
 * The question at the amount where the account holds something on that day and would be below zero after it. An account in which
 * nothing was booked until then has no balance to be held against, and one below zero was asked about when it came there.
 */
export function overdraws(books: Books, typed: TypedForm, leaving: Leaving): FormErrors {
  const { formId, day, fromAccountId, amountCents, instead } = leaving
  const account = findAccount(books, fromAccountId)
  const booked = balancesOn(books, day).get(fromAccountId)
  if (account?.kind !== 'asset' || !isCash(account) || booked === undefined) return {}
  const back = instead && instead.day <= day ? instead.lines : []
  const undone = back.flatMap((line) =>
    line.accountId === fromAccountId ? [negateCents(line.amountCents)] : [],
  )
  const held = addCents(booked, ...undone)
  const left = addCents(held, negateCents(amountCents))
  if (held < 0 || left >= 0 || wasCarriedOut(books, formId)) return {}
  return typed.values(sureOverdraws).includes(overdrawKey(typed))
    ? {}
    : { amount: overdrawQuestion(account.name, day, held, left) }
}
