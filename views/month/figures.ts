// What the page of the month is given.
import type { AgainstLastYear, MonthPath } from '#today/month/figures.ts'
import type { NowFigures } from '#today/now/figures.ts'
import type { DeskRow } from '../books-sorting/line-facts.tsx'
import type { FieldErrors } from '../parts/field.tsx'

export interface MonthPageFigures extends MonthPath {
  /** Null before anything is booked in the month. */
  against: AgainstLastYear | null
  /** Of the farm's notebook, up to the month's end, that wait for the table. */
  notes: number
  sort: {
    /** What is proposed without a doubt, a transfer by one of its halves. */
    sure: readonly DeskRow[]
    /** The transactions that these book, a transfer's both halves counted; and those that come after these are booked. */
    inShown: number
    moreSure: number
    /** Lines of the month and before that a person has to look at; of them doubtful. */
    left: number
    doubtful: number
    /** Lines of the month, sorted or not; lines of later months that wait. */
    read: number
    later: number
  }
}

export interface MonthPageProps {
  figures: MonthPageFigures
  review: Pick<NowFigures, 'review' | 'reviewWaits'>
  errors: FieldErrors
  formId: string
  /** Boxes open ticked; in a form that comes back, as they were sent. */
  isTicked: (name: 'sure[]' | 'agrees[]' | 'begun[]', value: string) => boolean
}
