package snick.exchange.table;

/**
 * A file as its package describes it.
 *
 * @param bytes its length
 * @param sha256 its SHA-256, 64 lower-case hexadecimal digits
 */
public record FileFacts(long bytes, String sha256) {}
