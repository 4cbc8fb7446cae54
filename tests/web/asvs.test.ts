// OWASP ASVS 4.0.3, level 1: what applies to a house at home on one computer, and the test that holds each point.
// Numbers and wording are from memory of the published standard, shortened; check them against it before relying on a number.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

interface Point {
  id: string
  says: string
  /** File and name of the test that holds it. */
  heldBy: readonly [file: string, name: string]
}

const access = (name: string) => ['tests/web/access.test.ts', name] as const
const security = (name: string) => ['tests/web/security.test.ts', name] as const
const books = (name: string) => ['tests/web/books.test.ts', name] as const

const points: readonly Point[] = [
  {
    id: '2.1.1',
    says: 'passphrases have 12 letters or more',
    heldBy: access('short, doubled or common passphrases are refused, and both must be the same'),
  },
  {
    id: '2.1.7',
    says: 'common passphrases are refused',
    heldBy: access('short, doubled or common passphrases are refused, and both must be the same'),
  },
  {
    id: '2.1.5/2.1.6',
    says: 'a passphrase can be changed, giving the old one',
    heldBy: access('changing the passphrase asks for the old one and ends every other session'),
  },
  {
    id: '2.2.1',
    says: 'guessing is slowed down',
    heldBy: access('after five wrong tries each further one waits, even the right one'),
  },
  {
    id: '2.4.1',
    says: 'passphrases are kept as salted scrypt digests only',
    heldBy: access('the file holds neither the passphrase nor anything that opens a session'),
  },
  {
    id: '3.2.1',
    says: 'unlocking opens a new session',
    heldBy: access('the right passphrase opens a new session, and locking ends it'),
  },
  {
    id: '3.3.1',
    says: 'locking ends the session, Back does not bring it back',
    heldBy: access('the right passphrase opens a new session, and locking ends it'),
  },
  {
    id: '3.3.2',
    says: 'a session that idles ends',
    heldBy: access('a session that is not used locks itself'),
  },
  {
    id: '3.3.2',
    says: 'a session ends some time after it was opened, used or not',
    heldBy: access('a session ends a day after it was opened, however busy it is'),
  },
  {
    id: '2.2.1',
    says: 'slowing guesses down locks nobody else out',
    heldBy: access('a browser that has given the passphrase is not locked out by others at the same address'),
  },
  {
    id: '3.4.1-3.4.3',
    says: 'session cookies are HttpOnly and SameSite, and Secure over https',
    heldBy: access('without a passphrase the pages are open; with one, only who gave it gets in'),
  },
  {
    id: '3.7.1',
    says: 'nothing sensitive without a valid session',
    heldBy: access('a stranger gets neither figures, tables, parts nor changes'),
  },
  {
    id: '4.1.1',
    says: 'access is decided at the server, for every address',
    heldBy: access('a stranger gets neither figures, tables, parts nor changes'),
  },
  {
    id: '4.2.2',
    says: 'changes cannot be forged by another site',
    heldBy: security('a form sent from another site is refused'),
  },
  {
    id: '5.1.1',
    says: 'repeated and reaching parameter names do no harm',
    heldBy: [
      'tests/web/form.test.ts',
      'names that reach for prototypes are dropped, names that objects have by themselves are names',
    ],
  },
  {
    id: '5.1.3',
    says: 'everything typed is checked against what is allowed',
    heldBy: [
      'tests/web/form.test.ts',
      'what is wrong is told by the name of its input, and what was typed is kept',
    ],
  },
  {
    id: '5.1.5',
    says: 'redirects stay in the house',
    heldBy: access('after unlocking, nothing leads to another site'),
  },
  {
    id: '5.3.3',
    says: 'what was typed is shown as text',
    heldBy: books('script typed into every text field is shown as text'),
  },
  {
    id: '5.3.4',
    says: 'searches cannot reach into the database',
    heldBy: books('a search full of quotes and operators finds nothing and breaks nothing'),
  },
  {
    id: '7.1.1',
    says: 'the log holds no amounts, names or secrets',
    heldBy: [
      'tests/web/log.test.ts',
      'the log holds method, route, status and time, and nothing that was typed',
    ],
  },
  {
    id: '7.4.1',
    says: 'a broken page says nothing of its insides',
    heldBy: ['tests/web/log.test.ts', 'a page that breaks tells the visitor nothing of its insides'],
  },
  {
    id: '8.2.1',
    says: 'pages stay out of caches',
    heldBy: security('every answer carries the strict policy and stays out of caches'),
  },
  {
    id: '8.3.1',
    says: 'nothing sensitive in addresses: what changes is sent in the body',
    heldBy: books(
      'an entry by form lands in the register with its running balance, and sending it twice books it once',
    ),
  },
  {
    id: '9.1.1',
    says: 'beyond this computer only https, with a passphrase',
    heldBy: [
      'tests/web/serve.test.ts',
      'an address that other computers reach is refused without https and without a passphrase',
    ],
  },
  {
    id: '12.1.1',
    says: 'uploads over the limit are refused',
    heldBy: security('a form over the limit is refused with what to do instead'),
  },
  {
    id: '13.2.1',
    says: 'only the methods that are meant are answered',
    heldBy: security('only forms may change anything'),
  },
  {
    id: '14.4.1-14.4.7',
    says: 'content type, nosniff, policy, referrer and frame headers on every answer',
    heldBy: security('every answer carries the strict policy and stays out of caches'),
  },
  {
    id: '14.5.3',
    says: 'Origin and Host are checked against a list, never echoed',
    heldBy: security('a page that rebinds its own name to this address is refused'),
  },
]

test.for(points)('$id: $says', ({ heldBy: [file, name] }) => {
  const root = new URL('../..', import.meta.url).pathname
  expect(readFileSync(`${root}${file}`, 'utf8')).toContain(`test('${name}'`)
})
