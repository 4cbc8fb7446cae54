// Long writing on a connection of its own goes back before any other write of this process: the other one would wait for a lock that
// only this thread can let go of.
import type { Books } from '../open.ts'

/** Lets go of the lock, if somebody holds it for these books; who held it begins anew. */
export const makeWay = ({ sqlite }: Books): void => goingBack.get(sqlite)?.()

/** How it is let go of, for as long as it is held; null when it is not any more. */
export const heldFor = ({ sqlite }: Books, goBack: (() => void) | null): void => {
  if (goBack) goingBack.set(sqlite, goBack)
  else goingBack.delete(sqlite)
}

const goingBack = new WeakMap<Books['sqlite'], () => void>()
