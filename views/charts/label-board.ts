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
  /** Four numbers a segment, x and y of its ends: a chart has thousands of them. */
  const segments: number[] = []
  const isFree = (box: Box) =>
    box.left >= 0 &&
    box.right <= width &&
    box.top >= 0 &&
    box.bottom <= height &&
    !taken.some((other) => meet(other, box))
  const take = ({ place, box }: Placed): Place => {
    taken.push(box)
    return place
  }
  return {
    fix: (rows, place) => void taken.push(boxAt(place, widthOfAll(rows, false), rows.length)),
    put(rows, places, { isBold = false, mayLieOnLines = false } = {}) {
      const wide = widthOfAll(rows, isBold)
      let first: Placed | null = null
      for (const place of places) {
        const box = boxAt(place, wide, rows.length)
        if (!isFree(box)) continue
        if (!isOnLine(segments, box)) return take({ place, box })
        first ??= { place, box }
      }
      return mayLieOnLines && first ? take(first) : null
    },
    line(points) {
      for (let at = 1; at < points.length; at += 1) {
        const from = points[at - 1]!
        const to = points[at]!
        segments.push(from[0], from[1], to[0], to[1])
      }
    },
  }
}

interface Placed {
  place: Place
  box: Box
}

const widthOfAll = (rows: readonly string[], isBold: boolean): number =>
  Math.max(...rows.map((row) => widthOf(row, isBold)))

function boxAt({ x, y, anchor }: Place, width: number, rows: number): Box {
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
  return { left, right: left + width, top: y - above, bottom: y + below + (rows - 1) * rowHeight }
}

const meet = (a: Box, b: Box): boolean =>
  a.left < b.right + apart && b.left < a.right + apart && a.top < b.bottom && b.top < a.bottom

/** Whether any of a line lies in a box: it reaches over it both ways, and not all of the box lies on one side of it. */
function isOnLine(segments: readonly number[], { left, right, top, bottom }: Box): boolean {
  const x = (left + right) / 2
  const y = (top + bottom) / 2
  for (let at = 0; at < segments.length; at += 4) {
    const x1 = segments[at]!
    const y1 = segments[at + 1]!
    const x2 = segments[at + 2]!
    const y2 = segments[at + 3]!
    if ((x1 < left && x2 < left) || (x1 > right && x2 > right)) continue
    if ((y1 < top && y2 < top) || (y1 > bottom && y2 > bottom)) continue
    const dx = x2 - x1
    const dy = y2 - y1
    const off = Math.abs(dx * (y - y1) - dy * (x - x1))
    if (off <= (Math.abs(dx) * (bottom - top) + Math.abs(dy) * (right - left)) / 2) return true
  }
  return false
}
