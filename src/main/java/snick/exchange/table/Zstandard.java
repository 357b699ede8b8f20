package snick.exchange.table;

import io.airlift.compress.zstd.ZstdCompressor;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.compression.CompressionCodecFactory;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;

/** Zstandard (RFC 8878) in Java alone, to write with: no native library to be found or missed. */
final class Zstandard implements CompressionCodecFactory {
  private static final class Compressor implements BytesInputCompressor {
    private final ZstdCompressor zstd = new ZstdCompressor();

    @Override
    public BytesInput compress(BytesInput bytes) throws IOException {
      ByteArrayOutputStream gathered = new ByteArrayOutputStream((int) bytes.size());
      bytes.writeAllTo(gathered);
      byte[] plain = gathered.toByteArray();
      byte[] packed = new byte[zstd.maxCompressedLength(plain.length)];
      int length = zstd.compress(plain, 0, plain.length, packed, 0, packed.length);
      return BytesInput.from(packed, 0, length);
    }

    @Override
    public CompressionCodecName getCodecName() {
      return CompressionCodecName.ZSTD;
    }

    @Override
    public void release() {
      // holds nothing
    }
  }

  @Override
  public BytesInputCompressor getCompressor(CompressionCodecName name) {
    if (name != CompressionCodecName.ZSTD) {
      throw new IllegalArgumentException(name + ": only ZSTD is written");
    }
    return new Compressor();
  }

  @Override
  public BytesInputDecompressor getDecompressor(CompressionCodecName name) {
    throw new UnsupportedOperationException("nothing is read");
  }

  @Override
  public void release() {
    // holds nothing
  }
}
