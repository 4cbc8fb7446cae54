// Whether a year asks for forms to those who were paid for work, or rent: said ahead while it runs, and once it is over only where one is to be sent.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { currentPlan } from '#today/current-plan.ts'
import { paidForWork, paidRent } from '#today/tax/books-year.ts'
import { sendsForms } from '#today/year-pack/people-figures.ts'

export const workFormsAsked = (books: Books, year: number, today: Day): boolean =>
  paidForWork(books, year) && isAsked(books, year, 'work', today)

export const rentFormsAsked = (books: Books, year: number, today: Day): boolean =>
  paidRent(books, year) && isAsked(books, year, 'rent', today)

const isAsked = (books: Books, year: number, what: 'work' | 'rent', today: Day): boolean =>
  year >= yearIn(today) || sendsForms(books, year, what, currentPlan(books))
