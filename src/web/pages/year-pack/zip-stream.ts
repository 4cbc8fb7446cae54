// A folder as one .zip, written file by file, so that no more than one receipt lies in memory at a time.
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate'

export interface ZippedFile {
  /** With its folders, `/` between them. */
  path: string
  /** Null where the file cannot be read: it is left out. */
  bytes: () => Uint8Array | null
  /** Photos and PDFs are packed already. */
  isPacked: boolean
}

/** `at`: the time that each file is given. Files are read as the stream is asked for more. */
export const zipStream = (files: readonly ZippedFile[], at: Date): ReadableStream<Uint8Array> => {
  let next = 0
  let zip: Zip
  return new ReadableStream<Uint8Array>({
    start(controller) {
      zip = new Zip((error, chunk, isLast) => {
        if (error) return controller.error(error)
        if (chunk.length > 0) controller.enqueue(chunk)
        if (isLast) controller.close()
      })
    },
    pull() {
      const file = files[next++]
      if (!file) return zip.end()
      const bytes = file.bytes()
      if (bytes === null) return
      const entry = file.isPacked ? new ZipPassThrough(file.path) : new ZipDeflate(file.path, { level: 6 })
      entry.mtime = at
      zip.add(entry)
      entry.push(bytes, true)
    },
    cancel() {
      zip.terminate()
    },
  })
}

/** What every system takes as a file name: letters, digits, space, dot, dash. */
export const plainFileName = (text: string): string =>
  text
    .normalize('NFKD')
    .replaceAll(/[^\w .-]+/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .replace(/^[ .]+|[ .]+$/g, '')
    .slice(0, 80)
