// The rooms by the door: what the first visit of a day asks for. They are loaded before the house opens, the others after.
import { hasHousehold } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { Access } from './access.ts'

export interface FrontRooms {
  rooms: readonly PageRoom[]
  /** Addresses that these rooms answer by themselves. */
  paths: ReadonlySet<string>
}

const nowPaths = ['/', '/now', '/now.json', '/now.csv']

/** Now for books that are set up, the welcome for those that are not, and the lock where there is one: no room more. */
export async function frontRooms(books: Books, access: Access): Promise<FrontRooms> {
  const rooms = [(await import('#web/pages/now/now.tsx')).nowPages]
  const paths = [...nowPaths]
  if (!hasHousehold(books)) {
    rooms.push((await import('#web/pages/start/start.tsx')).startPages)
    paths.push('/start')
  }
  if (access.isSet()) {
    rooms.push((await import('#web/pages/settings/passphrase.tsx')).passphrasePages)
    paths.push('/unlock')
  }
  return { rooms, paths: new Set(paths) }
}
