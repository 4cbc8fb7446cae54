// Where drizzle-kit finds the schema and writes migrations: `npx drizzle-kit generate --config drizzle/drizzle.config.ts`.
// Read every generated file: add STRICT to each CREATE TABLE, and a written reason to each DROP TABLE.
import { defineConfig } from 'drizzle-kit'

export default defineConfig({
  dialect: 'sqlite',
  schema: ['./src/db/schema*.ts', './src/db/notebook/schema*.ts'],
  out: './drizzle',
})
