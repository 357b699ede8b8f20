package snick.exchange.table;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.parquet.column.ParquetProperties.WriterVersion;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.api.WriteSupport;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.io.LocalOutputFile;
import org.apache.parquet.io.api.RecordConsumer;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;
import org.apache.parquet.util.AutoCloseables.ParquetCloseResourceException;
import snick.quantity.Attribute;

/**
 * A Parquet file being written, compressed by zstd; whole numbers as differences (version 2 of the
 * encodings).
 *
 * @param <R> what a row is made of
 */
public final class ParquetFile<R> implements Closeable {
  private final ParquetWriter<R> writer;

  /**
   * A new file.
   *
   * @param metadata what the file says of itself
   */
  public ParquetFile(Path file, List<ParquetColumn<R>> columns, Map<String, String> metadata)
      throws IOException {
    writer = new Builder<>(file, columns, metadata).build();
  }

  public void write(R row) throws IOException {
    writer.write(row);
  }

  @Override
  public void close() throws IOException {
    try {
      writer.close();
    } catch (ParquetCloseResourceException e) {
      throw reason(e);
    }
  }

  /** Why it could not be closed: the library wraps it up, or only puts it beside. */
  private static IOException reason(Throwable wrapped) {
    return Stream.concat(Stream.ofNullable(wrapped.getCause()), Stream.of(wrapped.getSuppressed()))
        .filter(IOException.class::isInstance)
        .map(IOException.class::cast)
        .findFirst()
        .orElseGet(() -> new IOException(wrapped.getMessage(), wrapped));
  }

  private static final class Builder<R> extends ParquetWriter.Builder<R, Builder<R>> {
    private final List<ParquetColumn<R>> columns;

    Builder(Path file, List<ParquetColumn<R>> columns, Map<String, String> metadata) {
      super(new LocalOutputFile(file));
      this.columns = columns;
      withExtraMetaData(metadata);
      withWriterVersion(WriterVersion.PARQUET_2_0);
      withCompressionCodec(CompressionCodecName.ZSTD);
      withCodecFactory(new Zstandard());
      columns.stream()
          .filter(c -> c.list() && c.attribute().type() != Attribute.Type.TEXT)
          .forEach(c -> withDictionaryEncoding(c.name() + ".list.element", false));
    }

    @Override
    protected Builder<R> self() {
      return this;
    }

    @Override
    @SuppressWarnings("deprecation") // the only abstract one
    protected WriteSupport<R> getWriteSupport(Configuration ignored) {
      return new Rows<>(columns);
    }
  }

  private static final class Rows<R> extends WriteSupport<R> {
    private final List<ParquetColumn<R>> columns;
    private RecordConsumer out;

    Rows(List<ParquetColumn<R>> columns) {
      this.columns = columns;
    }

    @Override
    @SuppressWarnings("deprecation") // the only abstract one
    public WriteContext init(Configuration ignored) {
      List<Type> types = columns.stream().map(ParquetColumn::type).toList();
      return new WriteContext(new MessageType("row", types), Map.of());
    }

    @Override
    public void prepareForWrite(RecordConsumer consumer) {
      out = consumer;
    }

    @Override
    public void write(R row) {
      out.startMessage();
      for (int i = 0; i < columns.size(); i++) {
        columns.get(i).write(row, i, out);
      }
      out.endMessage();
    }
  }
}
