// A change made to a books file as a hand with an editor would make it.
import type Database from 'better-sqlite3'

/** Triggers away, foreign keys and checks off, the change made, triggers back. A statement that drops a trigger finds it there. */
export const pastTheGuards = (sqlite: Database.Database, statement: string): void => {
  const triggers = sqlite.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
    name: string
    sql: string
  }[]
  sqlite.pragma('foreign_keys = OFF')
  sqlite.pragma('ignore_check_constraints = ON')
  const kept = statement.startsWith('DROP TRIGGER') ? [] : triggers
  for (const trigger of kept) sqlite.exec(`DROP TRIGGER ${trigger.name}`)
  sqlite.exec(statement)
  for (const trigger of kept) sqlite.exec(trigger.sql)
  sqlite.pragma('ignore_check_constraints = OFF')
  sqlite.pragma('foreign_keys = ON')
}
