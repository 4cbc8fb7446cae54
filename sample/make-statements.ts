// Writes the sample farm's statements into sample/statements: `npx tsx sample/make-statements.ts`. The same bytes every time.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { makeStatements } from './statement-texts.ts'

const folder = join(import.meta.dirname, 'statements')
mkdirSync(folder, { recursive: true })
for (const old of readdirSync(folder)) rmSync(join(folder, old))
for (const { fileName, text } of makeStatements()) writeFileSync(join(folder, fileName), text)
