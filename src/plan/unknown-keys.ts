// Keys of a document that its schema does not know: reading leaves them out in silence, so a slip of the finger would be no error.

/** Dotted paths of what stood in `given` and is not in `read`, which a schema made of it. */
export const unknownKeys = (given: unknown, read: unknown, path = ''): string[] => {
  if (Array.isArray(given) && Array.isArray(read))
    return given.flatMap((one, i) => unknownKeys(one, read[i], join(path, String(i))))
  if (!isRecord(given) || !isRecord(read)) return []
  return Object.entries(given).flatMap(([key, value]) =>
    Object.hasOwn(read, key) ? unknownKeys(value, read[key], join(path, key)) : [join(path, key)],
  )
}

const join = (path: string, key: string): string => (path === '' ? key : `${path}.${key}`)

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
