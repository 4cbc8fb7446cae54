// Whether the farm's hours have someone to work them: what is hired for, what stays undone, and how far the enterprises shrink with it.

export interface FarmWork {
  /** Calendar month of month 0: shares are of calendar years. */
  firstMonth: number
  /** By month: hours of the whole farm, and those of them that the plan gives to hired help. */
  hours: Float64Array
  hiredByPlan: Float64Array
  /** By month: hours of help for the season, paid whether or not they are needed; none where hours are paid only when needed. */
  promised: Float64Array
  /** Where the plan hires, hours beyond the crew are hired too; else they are not done. */
  hires: boolean
}

/** Who is there: the part of the farm that is kept up, hours the crew has in each month, and hours that purchases save. */
export interface Hands {
  kept: number
  crew: Float64Array
  saved: Float64Array
}

export interface WorkDone {
  hired: Float64Array
  /** Hired hours and those that are paid without being needed. */
  paid: Float64Array
  /** Hours worked, hired ones with them, and hours that nobody works. */
  worked: Float64Array
  undone: Float64Array
  /** Share of the enterprises' work that is done: one for each calendar year, as what is missed in spring is missing in fall. */
  share: Float64Array
}

export const emptyWorkDone = (months: number): WorkDone => ({
  hired: new Float64Array(months),
  paid: new Float64Array(months),
  worked: new Float64Array(months),
  undone: new Float64Array(months),
  share: new Float64Array(months).fill(1),
})

/** Fills the months from `from` up to `to`, the end of a calendar year or of all. Hours saved are taken off hired ones first, then off the crew's. */
export const shareWork = (work: FarmWork, hands: Hands, from: number, to: number, out: WorkDone): void => {
  let begun = from
  for (let m = from; m < to; m += 1) {
    const hours = work.hours[m]! * hands.kept
    const given = work.hiredByPlan[m]! * hands.kept
    const saved = Math.min(hours, hands.saved[m]!)
    const beyond = Math.max(0, hours - given - hands.crew[m]!)
    const open = Math.max(0, beyond - saved)
    const hired = Math.max(0, given - Math.max(0, saved - beyond)) + (work.hires ? open : 0)
    out.hired[m] = hired
    out.paid[m] = Math.max(hired, work.promised[m]! * hands.kept)
    out.undone[m] = work.hires ? 0 : open
    out.worked[m] = hours - saved - out.undone[m]!
    if ((work.firstMonth + m) % 12 !== 11 && m + 1 < to) continue
    fillShare(out, begun, m + 1)
    begun = m + 1
  }
}

const fillShare = (out: WorkDone, from: number, to: number): void => {
  let undone = 0
  let all = 0
  for (let m = from; m < to; m += 1) {
    undone += out.undone[m]!
    all += out.worked[m]! + out.undone[m]!
  }
  const share = undone > 0 ? 1 - undone / all : 1
  for (let m = from; m < to; m += 1) out.share[m] = share
}
