// The house's own certificate, so that a phone in the home network can reach the books over https: made here, trusted by the phone, no one else asked.
import { generateKeyPairSync, X509Certificate } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { isIPv4 } from 'node:net'
import { hostname, networkInterfaces } from 'node:os'
import { join } from 'node:path'
import { placeBeside } from '#db/data-place.ts'
import { makeWhole } from '#db/half.ts'
import { writeCertificate } from './x509.ts'

export interface HouseCertificate {
  /** Addresses it is for. */
  names: string[]
  /** SHA-256 of what the phone is to trust, in pairs of hex. */
  fingerprint: string
  /** Last day, as ISO text. */
  ends: string
  hasEnded: boolean
  /** Where certificate and key lie, for `--certificate` and `--key`. */
  files: { certificate: string; key: string }
}

/** Phones refuse a server's certificate that holds longer than 825 days (from memory: the rule of a large phone maker). */
const daysOfServer = 800

const filesIn = (folder: string) => ({
  authority: join(folder, 'house.crt'),
  certificate: join(folder, 'house-server.pem'),
  key: join(folder, 'house-server-key.pem'),
})

const folderBeside = (booksPath: string): string => join(placeBeside(booksPath).folder, 'certificate')

export const houseCertificate = (booksPath: string, now: Date): HouseCertificate | null => {
  const { authority, certificate, key } = filesIn(folderBeside(booksPath))
  if (![authority, certificate, key].every((file) => existsSync(file))) return null
  const server = new X509Certificate(readFileSync(certificate))
  const ends = new Date(server.validTo)
  return {
    names: (server.subjectAltName ?? '').split(', ').map((name) => name.replace(/^(DNS|IP Address):/, '')),
    fingerprint: new X509Certificate(readFileSync(authority)).fingerprint256,
    ends: ends.toISOString().slice(0, 10),
    hasEnded: ends <= now,
    files: { certificate, key },
  }
}

/** What the phone installs: the certificate that vouches for this computer's. */
export const authorityFile = (booksPath: string): Buffer | null => {
  const { authority } = filesIn(folderBeside(booksPath))
  return existsSync(authority) ? readFileSync(authority) : null
}

/**
 * Makes certificates for an address. The key that vouches is thrown away at once, so that nobody can ever vouch for anything else with it;
 * a new certificate is therefore installed on the phones anew.
 */
export const makeHouseCertificate = (booksPath: string, address: string, now: Date): void => {
  const to = new Date(now.getTime() + daysOfServer * 86_400_000)
  const pair = () => generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const [house, server] = [pair(), pair()]
  const issuer = `Dooryard of this house, to ${to.toISOString().slice(0, 10)}`
  // A phone's clock may be behind this computer's.
  const usual = { issuer, from: new Date(now.getTime() - 86_400_000), to, signedBy: house.privateKey }
  const authority = writeCertificate({
    ...usual,
    subject: issuer,
    publicKey: house.publicKey,
    use: { kind: 'authority' },
  })
  const certificate = writeCertificate({
    ...usual,
    // The address stands beside it; a name in the subject could not be longer than 64 letters.
    subject: 'Dooryard',
    publicKey: server.publicKey,
    use: { kind: 'server', address },
  })
  const key = server.privateKey.export({ type: 'pkcs8', format: 'pem' })
  const folder = folderBeside(booksPath)
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  const files = filesIn(folder)
  for (const [target, text] of [
    [files.key, key],
    [files.certificate, certificate],
    [files.authority, authority],
  ] as const)
    makeWhole(folder, target, (half) => writeFileSync(half, text, { mode: 0o600 }))
}

/** Addresses at which this computer may be known in the home network, likely ones first. */
export const homeAddresses = (): string[] => [
  ...Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ internal, family }) => !internal && family === 'IPv4')
    .map(({ address }) => address),
  hostname(),
]

/** An IPv4 address of the network or a name, as a browser would be told. */
export const isHomeAddress = (text: string): boolean =>
  isIPv4(text) ||
  (/^(?!-)[a-z0-9-]{1,63}(\.[a-z0-9-]{1,63})*$/i.test(text) && !/(^|\.)\d+$/.test(text) && text.length <= 200)
