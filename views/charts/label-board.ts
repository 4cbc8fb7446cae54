// Where the words of a chart stand: each takes the first of its places that lies in the drawing, on no other words and, if it can, on no line.
import { rowHeight, widthOf } from './text-width.ts'

export type Anchor = 'start' | 'middle' | 'end'

/** A place to write at: x of the anchor, y of the first row's base line, px. */
export interface Place {
  x: number
  y: number
  anchor: Anchor
}

interface Box {
  left: number
  right: number
  top: number
  bottom: number
}

type Segment = readonly [x1: number, y1: number, x2: number, y2: number]

export interface LabelBoard {
  /** Words that stand where they stand: axes. */
  fix(rows: readonly string[], place: Place): void
  /** Takes a place for these words; null where none is left. `mayLieOnLines`: better on a line than nowhere. */
  put(
    rows: readonly string[],
    places: readonly Place[],
    how?: { isBold?: boolean; mayLieOnLines?: boolean },
  ): Place | null
  /** Lines that words keep off, as a polyline in px. */
  line(points: readonly (readonly [number, number])[]): void
}

const above = 13
const below = 4
const apart = 4

export function labelBoard(width: number, height: number): LabelBoard {
  const taken: Box[] = []
  const segments: Segment[] = []
  const isFree = (box: Box) =>
    box.left >= 0 &&
    box.right <= width &&
    box.top >= 0 &&
    box.bottom <= height &&
    !taken.some((other) => meet(other, box))
  return {
    fix: (rows, place) => void taken.push(boxOf(rows, place, false)),
    put(rows, places, how = {}) {
      const free = places
        .map((place) => ({ place, box: boxOf(rows, place, how.isBold ?? false) }))
        .filter(({ box }) => isFree(box))
      const found =
        free.find(({ box }) => !segments.some((one) => cuts(one, box))) ??
        (how.mayLieOnLines ? free[0] : undefined)
      if (!found) return null
      taken.push(found.box)
      return found.place
    },
    line(points) {
      for (let at = 1; at < points.length; at += 1) segments.push([...points[at - 1]!, ...points[at]!])
    },
  }
}

function boxOf(rows: readonly string[], { x, y, anchor }: Place, isBold: boolean): Box {
  const width = Math.max(...rows.map((row) => widthOf(row, isBold)))
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
  return { left, right: left + width, top: y - above, bottom: y + below + (rows.length - 1) * rowHeight }
}

const meet = (a: Box, b: Box): boolean =>
  a.left < b.right + apart && b.left < a.right + apart && a.top < b.bottom && b.top < a.bottom

/** Whether any of a line lies in a box: what is left of it once each side has cut its own off. */
function cuts([x1, y1, x2, y2]: Segment, box: Box): boolean {
  let from = 0
  let to = 1
  const sides = [
    [x1 - x2, x1 - box.left],
    [x2 - x1, box.right - x1],
    [y1 - y2, y1 - box.top],
    [y2 - y1, box.bottom - y1],
  ] as const
  for (const [step, room] of sides) {
    if (step === 0) {
      if (room < 0) return false
      continue
    }
    const at = room / step
    if (step < 0) from = Math.max(from, at)
    else to = Math.min(to, at)
    if (from > to) return false
  }
  return true
}
