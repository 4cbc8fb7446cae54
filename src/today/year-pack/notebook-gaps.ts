// What the farm's notebook leaves open for the preparer: goods that are in no books, hired hours without pay, miles without an odometer.
import type { PreparerNotes } from '#farm/notebook/preparer.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

export const isEmpty = ({ trips, odometers, hired, goods }: PreparerNotes): boolean =>
  trips.length + odometers.length + hired.length + goods.length === 0

export const notebookGaps = (notes: PreparerNotes, year: number): Gap[] => {
  const waiting = notes.goods.filter(({ isBooked }) => !isBooked).length
  const unpaid = notes.hired.filter(({ hasUnpaid }) => hasUnpaid).map(({ person }) => person)
  const gaps: Gap[] = []
  if (waiting > 0)
    gaps.push({
      says: `Goods used at home or bartered: ${waiting} of ${notes.goods.length} noted in ${year} ${waiting === 1 ? 'waits' : 'wait'} for the table and ${waiting === 1 ? 'is' : 'are'} in none of these figures.`,
      href: '/farm/notebook/table',
    })
  if (unpaid.length > 0)
    gaps.push({
      says: `Hired hours of ${unpaid.join(', ')}: for some of ${year} no pay is noted. Compare them with what the books paid for labor.`,
      href: `/farm/preparer?year=${year}`,
    })
  if (notes.farmMiles > 0 && notes.odometers.every(({ driven }) => driven === 0))
    gaps.push({
      says: `${notes.farmMiles} miles for the farm are noted in ${year}, and no odometer at its beginning and end: the farm’s share of the driving is not known.`,
      href: '/farm/notebook?open=trip',
    })
  const driven = notes.odometers.reduce((sum, one) => sum + one.driven, 0)
  const isRead = notes.odometers.some((one) => one.driven !== 0)
  if (isRead && notes.farmMiles > driven)
    gaps.push({
      says: `${notes.farmMiles} miles for the farm are noted in ${year}, and by their odometers the vehicles went ${driven} in all: one of the two is not right.`,
      href: `/farm/preparer?year=${year}`,
    })
  return gaps
}
