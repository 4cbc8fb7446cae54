// Held against what others read: Node's own X.509 parser (OpenSSL), and a TLS handshake that trusts nothing but the house's certificate.
import { createHash, X509Certificate } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs'
import { createServer, request } from 'node:https'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  authorityFile,
  houseCertificate,
  isHomeAddress,
  makeHouseCertificate,
} from '#web/server/house-certificate.ts'

let folder: string
const now = new Date()
const books = () => join(folder, 'books.sqlite')

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-certificate-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('before one was made there is none', () => {
  expect(houseCertificate(books(), now)).toBeNull()
  expect(authorityFile(books())).toBeNull()
})

test('the two certificates are what OpenSSL expects of an authority and of a server it vouches for', () => {
  makeHouseCertificate(books(), '192.168.1.20', now)
  const made = houseCertificate(books(), now)!
  const authority = new X509Certificate(authorityFile(books())!)
  const server = new X509Certificate(readFileSync(made.files.certificate))
  expect([authority.ca, server.ca]).toEqual([true, false])
  expect(authority.verify(authority.publicKey)).toBe(true)
  expect(server.checkIssued(authority) && server.verify(authority.publicKey)).toBe(true)
  expect(server.checkIP('192.168.1.20')).toBe('192.168.1.20')
  expect(server.checkIP('192.168.1.21')).toBeUndefined()
  expect(server.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1'])
  // RFC 5280, 4.2.1.1 and 4.2.1.2: each says whose key it is by SHA-1 of the key, the server's whose key signed it too.
  const named = (one: X509Certificate) =>
    createHash('sha1')
      .update(one.publicKey.export({ type: 'spki', format: 'der' }).subarray(-65))
      .digest()
  expect(authority.raw.includes(named(authority))).toBe(true)
  expect([server.raw.includes(named(server)), server.raw.includes(named(authority))]).toEqual([true, true])
  const days = (Date.parse(server.validTo) - Date.parse(server.validFrom)) / 86_400_000
  expect(days).toBeLessThan(825)
  expect(made).toMatchObject({
    names: ['192.168.1.20'],
    fingerprint: authority.fingerprint256,
    hasEnded: false,
  })
  if (process.platform !== 'win32') expect(statSync(made.files.key).mode & 0o077).toBe(0)
})

test('a client that trusts the house alone reaches the server, at its own name only', async () => {
  makeHouseCertificate(books(), 'localhost', now)
  const { files } = houseCertificate(books(), now)!
  const server = createServer(
    { cert: readFileSync(files.certificate), key: readFileSync(files.key) },
    (_, reply) => reply.end('yes'),
  )
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  const ask = (servername: string) =>
    new Promise<string>((resolve) => {
      const sent = request(
        { host: '127.0.0.1', port, servername, ca: authorityFile(books())!, agent: false },
        (reply) => {
          reply.resume()
          resolve(String(reply.statusCode))
        },
      )
      sent.on('error', (error) => resolve((error as NodeJS.ErrnoException).code ?? 'refused'))
      sent.end()
    })
  expect(await ask('localhost')).toBe('200')
  expect(await ask('other.example')).toBe('ERR_TLS_CERT_ALTNAME_INVALID')
  server.close()
})

test('one that has ended says so, and odd addresses are refused', () => {
  expect(houseCertificate(books(), new Date(now.getTime() + 900 * 86_400_000))?.hasEnded).toBe(true)
  expect(['192.168.1.20', 'barn.local', 'HOUSE'].every(isHomeAddress)).toBe(true)
  expect(['', 'https://x', 'a b', '-a', '1.2.3.4:80', '300.1.1.1', 'a..b', '"; rm'].some(isHomeAddress)).toBe(
    false,
  )
})

test('the year 2050 and a long name change nothing', () => {
  const late = new Date('2049-06-01T08:00:00Z')
  const name = `${'barn.'.repeat(30)}local`
  makeHouseCertificate(books(), name, late)
  const { files, names, ends } = houseCertificate(books(), late)!
  const server = new X509Certificate(readFileSync(files.certificate))
  expect([names, ends]).toEqual([[name], '2051-08-10'])
  expect(server.validFrom).toContain('May 31 08:00:00 2049')
  expect(server.checkHost(name)).toBe(name)
})
