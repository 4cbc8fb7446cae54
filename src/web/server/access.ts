// The passphrase and who has given it: scrypt in the books file, sessions in memory only, wrong tries slowed down, locked after idling and after a day.
import { createHash, createHmac, randomBytes, scrypt, timingSafeEqual } from 'node:crypto'
import { z } from 'zod'
import { NotAsSaved } from '#db/file-problem.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { readSetting, readSettingAs, writeSetting } from '#db/settings-store.ts'
import type { Refusal } from '#ledger/problem.ts'
import type { Clock } from './clock.ts'
import { slowedTries } from './tries.ts'

export interface Access {
  /** True also when what is stored cannot be read: then nothing opens, and a try says why. */
  isSet(): boolean
  idleMinutes(): number
  /** Checks a typed passphrase. After five wrong ones of a client in a row each further try of it has to wait, twice as long each time. */
  check(
    passphrase: string,
    client: string,
  ): Promise<{ result: 'right' | 'wrong' } | { result: 'wait'; seconds: number }>
  /** What a browser that has given the passphrase is known again by: nobody can make one up, and a new passphrase ends all. */
  markOf(browser: string): string
  /** Saves a new passphrase, or none; every open session but the given one ends. */
  save(act: Act, passphrase: string | null, idleMinutes: number): Promise<{ ok: true } | Refusal>
  /** Opens a session and returns its token for the cookie. */
  open(): string
  /** True for a session that is open and not idle; counts as use. */
  isOpen(token: string | undefined): boolean
  close(token: string | undefined): void
}

const accessSetting = 'access.passphrase'

const storedSchema = z.union([
  z.object({
    salt: z.string(),
    hash: z.string(),
    cost: z.number().int(),
    idleMinutes: z.number().int(),
  }),
  z.object({ removed: z.literal(true) }),
])

const fullCost = 2 ** 15
const defaultIdleMinutes = 30
/** However busy it is: a stolen cookie is of no use the day after. */
const longestSessionHours = 24
const longestSession = longestSessionHours * 3_600_000
const clockPutRight = 5 * 60_000

interface Session {
  opened: number
  lastUsed: number
}

/** `cost`: what scrypt asks of whoever tries a passphrase, as slow as a person bears. */
export function accessOf(books: Books, clock: Clock, cost = fullCost): Access {
  const now = () => clock.now().getTime()
  const tries = slowedTries(now)
  /** Null when there is no passphrase. Throws when what is stored cannot be read. */
  const stored = () => {
    const { value } = readSettingAs(books, accessSetting, storedSchema)
    return value && 'hash' in value ? value : null
  }
  const isSet = () => {
    try {
      return stored() !== null
    } catch (error) {
      if (error instanceof NotAsSaved) return true
      throw error
    }
  }
  const idleMinutes = () => stored()?.idleMinutes ?? defaultIdleMinutes
  const sessions = sessionsOf(now, idleMinutes)
  return {
    isSet,
    idleMinutes,
    async check(passphrase, client) {
      const seconds = tries.wait(client)
      if (seconds > 0) return { result: 'wait', seconds }
      const known = stored()
      if (!known) return { result: 'wrong' }
      tries.begin(client)
      const hash = await derive(passphrase, Buffer.from(known.salt, 'base64'), known.cost)
      if (!timingSafeEqual(hash, Buffer.from(known.hash, 'base64'))) return { result: 'wrong' }
      tries.right(client)
      return { result: 'right' }
    },
    markOf: (browser) => markOf(browser, stored()?.hash ?? ''),
    async save(act, passphrase, minutes) {
      const { revision } = readSetting(books, accessSetting)
      const salt = randomBytes(16)
      const value =
        passphrase === null
          ? { removed: true }
          : {
              salt: salt.toString('base64'),
              hash: (await derive(passphrase, salt, cost)).toString('base64'),
              cost,
              idleMinutes: minutes,
            }
      const saved = writeSetting(books, act, accessSetting, value, revision)
      if (saved.ok) sessions.closeAll()
      return saved
    },
    open: sessions.open,
    isOpen: sessions.isOpen,
    close: sessions.close,
  }
}

/** In memory only. */
const sessionsOf = (now: () => number, idleMinutes: () => number) => {
  const sessions = new Map<string, Session>()
  return {
    open(): string {
      const token = randomBytes(32).toString('base64url')
      sessions.set(digest(token), { opened: now(), lastUsed: now() })
      return token
    },
    isOpen(token: string | undefined): boolean {
      const key = token === undefined ? '' : digest(token)
      const session = sessions.get(key)
      if (session === undefined) return false
      const idle = now() - session.lastUsed
      const isOver = idle > idleMinutes() * 60_000 || now() - session.opened > longestSession
      // Set back by more than a clock is put right by, time proves nothing.
      if (isOver || idle < -clockPutRight) {
        sessions.delete(key)
        return false
      }
      session.lastUsed = now()
      return true
    },
    close(token: string | undefined): void {
      if (token !== undefined) sessions.delete(digest(token))
    },
    closeAll: () => sessions.clear(),
  }
}

const derive = (passphrase: string, salt: Buffer, cost: number): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    const options = { N: cost, r: 8, p: 1, maxmem: 256 * cost * 8 }
    scrypt(passphrase.normalize('NFKC'), salt, 32, options, (error, key) =>
      error ? reject(error) : resolve(key),
    )
  })

const markOf = (browser: string, secret: string): string =>
  createHmac('sha256', secret).update(`known browser ${browser}`).digest('base64url')

/** Tokens are kept as digests: what lies in memory opens nothing. */
const digest = (token: string): string => createHash('sha256').update(token).digest('base64')
