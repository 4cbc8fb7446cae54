// Opens the door before every room is furnished: the first pages are answered at once, the rest of the house follows right after.
import type { House } from './open-house.ts'

const restDelayMilliseconds = 300

/**
 * Reading the pages at `frontPaths` is answered by `front` until the whole is there; anything else waits for it. The whole
 * is fetched when first needed, or a moment after the first page went out.
 */
export const growingHouse = (
  front: House,
  frontPaths: ReadonlySet<string>,
  openWhole: () => Promise<House>,
): House => {
  let opening: Promise<House> | undefined
  let whole: House | undefined
  const open = (): Promise<House> => {
    opening ??= openWhole().then((opened) => {
      whole = opened
      return opened
    })
    return opening
  }
  return {
    async fetch(request) {
      if (whole) return whole.fetch(request)
      const { pathname } = new URL(request.url)
      const isFront = frontPaths.has(pathname) || pathname.startsWith('/assets/')
      if (request.method !== 'GET' || !isFront) return (await open()).fetch(request)
      // A failure shows at the next request, which waits for the same promise.
      if (!opening) setTimeout(() => void open().catch(() => {}), restDelayMilliseconds)
      return front.fetch(request)
    },
  }
}
