// The only file that imports DuckDB: an optional dependency, loaded when Parquet is asked for.
import type { DuckDBConnection } from '@duckdb/node-api';
import { InputError } from '../../node/input-error.ts';
import { trialColumns } from './trial-columns.ts';

const memoryLimit = '256MB';
/** Each thread holds a group of rows at a time: two need more than the limit for ten thousand recordings, and are no faster. */
const threads = '1';

/** Whether Parquet can be written and read on this machine. */
export async function hasDuckDb(): Promise<boolean> {
  return import('@duckdb/node-api').then(
    () => true,
    () => false,
  );
}

async function connected<Result>(use: (connection: DuckDBConnection) => Promise<Result>): Promise<Result> {
  const { DuckDBInstance } = await import('@duckdb/node-api').catch((error: unknown) => {
    throw new InputError(
      'Parquet needs the package @duckdb/node-api, which is not installed',
      'install it, or use JSON Lines',
      { cause: error },
    );
  });
  const instance = await DuckDBInstance.create(':memory:', {
    memory_limit: memoryLimit,
    threads,
    // Nothing is fetched: Parquet and JSON are built in.
    autoinstall_known_extensions: 'false',
    autoload_known_extensions: 'false',
  });
  try {
    const connection = await instance.connect();
    try {
      await connection.run('SET preserve_insertion_order = true');
      return await use(connection);
    } finally {
      connection.closeSync();
    }
  } finally {
    instance.closeSync();
  }
}

/** Rows of a JSON Lines file (no header) into a Parquet file. @param header kept in the file's metadata, of a part */
export async function jsonLinesToParquet(jsonLines: string, parquet: string, header: string | null): Promise<void> {
  const metadata = header === null ? '' : `, KV_METADATA {setsquare: ${literal(header)}}`;
  await connected(async (connection) => {
    await connection.run(
      `COPY (SELECT * FROM read_json(${literal(jsonLines)}, format = 'newline_delimited', maximum_object_size = 16777216,
       columns = ${trialColumns})) TO ${literal(parquet)}
       (FORMAT parquet, COMPRESSION zstd, ROW_GROUP_SIZE 4096${metadata})`,
    );
  });
}

/** Rows of a Parquet part into a JSON Lines file, and the header from its metadata. */
export async function parquetToJsonLines(parquet: string, jsonLines: string): Promise<string> {
  return connected(async (connection) => {
    const reader = await connection.runAndReadAll(
      `SELECT decode(value) FROM parquet_kv_metadata(${literal(parquet)}) WHERE decode(key) = 'setsquare'`,
    );
    const [row] = reader.getRows();
    await connection.run(
      `COPY (SELECT * FROM read_parquet(${literal(parquet)})) TO ${literal(jsonLines)} (FORMAT json)`,
    );
    return row === undefined ? '' : String(row[0]);
  });
}

function literal(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}
