// The rooms by the door: what the first visit of a day asks for. They are loaded before the house opens, the others after.
import { nowPages } from './now.tsx'
import type { PageRoom } from './page-room.ts'
import { passphrasePages } from './passphrase.tsx'
import { startPages } from './start.tsx'

export const frontRooms: readonly PageRoom[] = [startPages, nowPages, passphrasePages]
