// Whether a year asks for forms to those who were paid for work, or rent: where by its payments so far one is to be sent, as the year pack counts them.
import type { Books } from '#db/open.ts'
import { currentPlan } from '#today/current-plan.ts'
import { paidForWork, paidRent } from '#today/tax/books-year.ts'
import { sendsForms } from '#today/year-pack/people-figures.ts'

export const workFormsAsked = (books: Books, year: number): boolean =>
  paidForWork(books, year) && sendsForms(books, year, 'work', currentPlan(books))

export const rentFormsAsked = (books: Books, year: number): boolean =>
  paidRent(books, year) && sendsForms(books, year, 'rent', currentPlan(books))
