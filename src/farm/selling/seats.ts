// Seats on waiting lists: each simulation either has one or has not, by its likelihood; what is expected counts it by that part.
import type { Farm, Market } from '#farm/farm-document.ts'

export interface OpenSeat {
  market: string
  chance: number
}

/** Every seat doubles the farms that are worked out: those after the fourth stay counted by their chance. */
const mostSeats = 4

/** What each simulation draws of what is neither sure nor out of the question, in the order of the markets. */
export const openSeats = (farm: Farm): OpenSeat[] => uncertain(farm).slice(0, mostSeats)

/** What is uncertain and yet counted by its chance in every simulation. */
export const seatsByChance = (farm: Farm): OpenSeat[] => uncertain(farm).slice(mostSeats)

const uncertain = (farm: Farm): OpenSeat[] =>
  farm.markets.flatMap(({ id, seat }) =>
    seat !== undefined && seat.chance > 0 && seat.chance < 1 ? [{ market: id, chance: seat.chance }] : [],
  )

/** The farm for every way in which its open seats can fall: the k-th is had where bit k of the place is set. None where all is sure. */
export const farmsBySeats = (farm: Farm): Farm[] => {
  const seats = openSeats(farm)
  if (seats.length === 0) return []
  return Array.from({ length: 1 << seats.length }, (_, had) => ({
    ...farm,
    markets: farm.markets.map((market): Market => {
      const k = seats.findIndex((one) => one.market === market.id)
      return k < 0 ? market : { ...market, seat: { ...market.seat!, chance: (had >> k) & 1 } }
    }),
  }))
}
