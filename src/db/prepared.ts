// Queries that every page asks, each prepared once for a file: drizzle takes longer to write their text than SQLite to answer it.
import { keeper } from '#kept/keeper.ts'
import type { Books } from './open.ts'

const keptOfFile = keeper(100)

/** `key` stands for the text of the query; what differs from time to time goes into it as `sql.placeholder`. */
export const prepared = <Query>(books: Books, key: string, build: (db: Books['db']) => Query): Query =>
  keptOfFile(books, key, () => build(books.db))
