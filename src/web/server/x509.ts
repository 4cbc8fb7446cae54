// Writes an X.509 certificate by RFC 5280: a tree of DER values around what Node's crypto signs. Why by hand is told in DEVELOPERS.md.
import { createHash, createPublicKey, type KeyObject, randomBytes, sign } from 'node:crypto'
import { isIPv4 } from 'node:net'

export interface CertificateDraft {
  subject: string
  issuer: string
  from: Date
  to: Date
  /** P-256, as SPKI: `generateKeyPairSync('ec', { namedCurve: 'P-256' })`. */
  publicKey: KeyObject
  /** Of the issuer, P-256. */
  signedBy: KeyObject
  /** `authority` may vouch for others and for nothing else; `server` answers at an address. */
  use: { kind: 'authority' } | { kind: 'server'; address: string }
}

/** The certificate in PEM, signed with ECDSA and SHA-256. */
export const writeCertificate = (draft: CertificateDraft): string => {
  const body = sequence(
    tagged(0, integer(Buffer.from([2]))),
    integer(serialNumber()),
    ecdsaWithSha256,
    nameOf(draft.issuer),
    sequence(time(draft.from), time(draft.to)),
    nameOf(draft.subject),
    draft.publicKey.export({ type: 'spki', format: 'der' }),
    tagged(3, sequence(...extensionsOf(draft))),
  )
  const signature = sign('sha256', body, { key: draft.signedBy, dsaEncoding: 'der' })
  return pem(sequence(body, ecdsaWithSha256, bits(0, signature)))
}

const extensionsOf = ({ use, publicKey, signedBy }: CertificateDraft): Buffer[] => {
  const own = extension('2.5.29.14', value(0x04, keyIdentifier(publicKey)))
  if (use.kind === 'authority')
    return [
      // No other authority may stand between it and a server (path length 0); key usage: keyCertSign is bit 5.
      critical('2.5.29.19', sequence(yes, integer(Buffer.from([0])))),
      critical('2.5.29.15', bits(2, Buffer.from([0b0000_0100]))),
      own,
    ]
  return [
    critical('2.5.29.19', sequence()),
    // digitalSignature is bit 0.
    critical('2.5.29.15', bits(7, Buffer.from([0b1000_0000]))),
    critical('2.5.29.37', sequence(oid('1.3.6.1.5.5.7.3.1'))),
    extension('2.5.29.17', sequence(addressOf(use.address))),
    own,
    extension('2.5.29.35', sequence(value(0x80, keyIdentifier(createPublicKey(signedBy))))),
  ]
}

/** SHA-1 of the key's point (RFC 5280, 4.2.1.2), which ends its SPKI: a name for a key, nothing rests on it. */
const keyIdentifier = (key: KeyObject): Buffer =>
  createHash('sha1')
    .update(key.export({ type: 'spki', format: 'der' }).subarray(-65))
    .digest()

/** Names are dNSName [2], addresses of IPv4 iPAddress [7]. */
const addressOf = (address: string): Buffer =>
  isIPv4(address)
    ? value(0x87, Buffer.from(address.split('.').map(Number)))
    : value(0x82, Buffer.from(address, 'ascii'))

const critical = (id: string, content: Buffer): Buffer => sequence(oid(id), yes, value(0x04, content))
const extension = (id: string, content: Buffer): Buffer => sequence(oid(id), value(0x04, content))

const nameOf = (commonName: string): Buffer =>
  sequence(value(0x31, sequence(oid('2.5.4.3'), value(0x0c, Buffer.from(commonName, 'utf8')))))

/** Twenty bytes at most, positive, and never the same again. */
const serialNumber = (): Buffer => {
  const bytes = randomBytes(16)
  bytes[0] = (bytes[0]! & 0x7f) | 0x40
  return bytes
}

/** UTCTime up to 2049, GeneralizedTime after it, as RFC 5280 asks. */
const time = (at: Date): Buffer => {
  const digits = `${at.toISOString().slice(0, 19).replaceAll(/[-:T]/g, '')}Z`
  return at.getUTCFullYear() < 2050
    ? value(0x17, Buffer.from(digits.slice(2), 'ascii'))
    : value(0x18, Buffer.from(digits, 'ascii'))
}

const value = (tag: number, content: Buffer): Buffer =>
  Buffer.concat([Buffer.from([tag]), lengthOf(content.length), content])

const lengthOf = (length: number): Buffer => {
  if (length < 0x80) return Buffer.from([length])
  const bytes = length < 0x100 ? [length] : [length >> 8, length & 0xff]
  return Buffer.from([0x80 | bytes.length, ...bytes])
}

const sequence = (...parts: readonly Buffer[]): Buffer => value(0x30, Buffer.concat(parts))
const tagged = (number: number, content: Buffer): Buffer => value(0xa0 | number, content)
const integer = (bytes: Buffer): Buffer => value(0x02, bytes)
const bits = (unused: number, bytes: Buffer): Buffer =>
  value(0x03, Buffer.concat([Buffer.from([unused]), bytes]))
const yes = value(0x01, Buffer.from([0xff]))

const oid = (text: string): Buffer => {
  const [first, second, ...rest] = text.split('.').map(Number)
  return value(0x06, Buffer.from([first! * 40 + second!, ...rest.flatMap(base128)]))
}

const base128 = (number: number): number[] => {
  const digits = [number & 0x7f]
  for (let left = number >> 7; left > 0; left >>= 7) digits.unshift((left & 0x7f) | 0x80)
  return digits
}

const ecdsaWithSha256 = sequence(oid('1.2.840.10045.4.3.2'))

const pem = (der: Buffer): string =>
  `-----BEGIN CERTIFICATE-----\n${der.toString('base64').replaceAll(/.{64}/g, '$&\n').trim()}\n-----END CERTIFICATE-----\n`
