// The receipts of a backup on their way back: out of it into a folder of their own first, among the kept ones only when it is carried out.
import { existsSync } from 'node:fs'
import { placeBeside } from '#db/data-place.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import { attachmentPath, copyBytes, type receiptsOf } from '#db/ledger/attachment-files.ts'

type Named = ReturnType<typeof receiptsOf>

export interface ReceiptsToRestore {
  /** Where what is taken out of the backup waits. */
  staged: string
  /** How many of those that the books show lie nowhere. */
  missing(named: Named): number
  /** Puts those named among the kept ones. */
  keep(named: Named): void
  forget(): void
}

/** Daily copies have their receipts beside them, other backups in them. */
export const receiptsToRestore = (backup: string, attachments: string): ReceiptsToRestore => {
  const staged = halfOf(attachments)
  const sources = [staged, placeBeside(backup).attachments]
  const isIn = (folder: string, hash: string) => existsSync(attachmentPath(folder, hash))
  return {
    staged,
    missing: (named) =>
      named.filter(
        ({ hash, isShown }) => isShown && ![attachments, ...sources].some((folder) => isIn(folder, hash)),
      ).length,
    keep: (named) => {
      for (const { hash } of named)
        sources.some((folder) => isIn(folder, hash) && copyBytes(folder, attachments, hash))
    },
    forget: () => forgetHalf(staged),
  }
}
