package snick.report;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;

/**
 * A small copy of a photo, drawn anew: where and when it was taken and everything else that a
 * camera writes beside the picture stays out.
 */
final class PhotoCopy {
  /** A picture is cheap to announce and dear to unpack: 100 megapixels are 400 MB. */
  private static final long MOST_PIXELS = 100_000_000;

  private static final int ORIENTATION = 0x0112;
  private static final int MOST_TAGS = 200;

  private PhotoCopy() {}

  /**
   * A JPEG of {@code photo}, upright; empty if it cannot be read or is too large to unpack.
   *
   * @param longestSide of the copy, px
   */
  static Optional<byte[]> of(byte[] photo, int longestSide) {
    try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(photo))) {
      var readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        return Optional.empty();
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        long pixels = (long) reader.getWidth(0) * reader.getHeight(0);
        return pixels > MOST_PIXELS
            ? Optional.empty()
            : Optional.of(
                jpeg(upright(read(reader, longestSide), orientation(photo), longestSide)));
      } finally {
        reader.dispose();
      }
    } catch (IOException | RuntimeException e) {
      // A damaged picture makes readers throw what they like; the report says that it is not shown.
      return Optional.empty();
    }
  }

  /** About twice as large as needed, so that scaling stays smooth. */
  private static BufferedImage read(ImageReader reader, int longestSide) throws IOException {
    int longest = Math.max(reader.getWidth(0), reader.getHeight(0));
    int every = Math.max(1, longest / (2 * longestSide));
    ImageReadParam param = reader.getDefaultReadParam();
    param.setSourceSubsampling(every, every, 0, 0);
    return reader.read(0, param);
  }

  private static BufferedImage upright(BufferedImage image, int orientation, int longestSide) {
    double scale =
        Math.min(1, (double) longestSide / Math.max(image.getWidth(), image.getHeight()));
    int width = Math.max(1, (int) (image.getWidth() * scale));
    int height = Math.max(1, (int) (image.getHeight() * scale));
    boolean turned = orientation > 4;
    BufferedImage copy =
        new BufferedImage(
            turned ? height : width, turned ? width : height, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = copy.createGraphics();
    graphics.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    graphics.transform(turning(orientation, width, height));
    graphics.drawImage(image, 0, 0, width, height, null);
    graphics.dispose();
    return copy;
  }

  /** What brings a picture upright (Exif 2.32, tag Orientation; from memory). */
  private static AffineTransform turning(int orientation, int width, int height) {
    return switch (orientation) {
      case 2 -> new AffineTransform(-1, 0, 0, 1, width, 0);
      case 3 -> new AffineTransform(-1, 0, 0, -1, width, height);
      case 4 -> new AffineTransform(1, 0, 0, -1, 0, height);
      case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
      case 6 -> new AffineTransform(0, 1, -1, 0, height, 0);
      case 7 -> new AffineTransform(0, -1, -1, 0, height, width);
      case 8 -> new AffineTransform(0, -1, 1, 0, 0, width);
      default -> new AffineTransform();
    };
  }

  private static byte[] jpeg(BufferedImage image) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ImageIO.write(image, "jpeg", bytes);
    return bytes.toByteArray();
  }

  /** The orientation that a camera noted in a JPEG, 1 to 8; 1 if it noted none. */
  static int orientation(byte[] photo) {
    ByteBuffer bytes = ByteBuffer.wrap(photo);
    int at = 2;
    while (at + 4 <= photo.length && bytes.getShort(at) == (short) 0xFFE0) {
      at += 2 + (bytes.getShort(at + 2) & 0xFFFF);
    }
    boolean exif =
        at + 18 <= photo.length
            && bytes.getShort(at) == (short) 0xFFE1
            && bytes.getInt(at + 4) == 0x45786966;
    return exif ? ofTags(bytes.slice(at + 10, photo.length - at - 10)) : 1;
  }

  private static int ofTags(ByteBuffer tiff) {
    tiff.order(tiff.getShort(0) == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    int at = tiff.getInt(4);
    if (at < 8 || at > tiff.limit() - 2) {
      return 1;
    }
    int tags = Math.min(MOST_TAGS, tiff.getShort(at) & 0xFFFF);
    for (int i = 0; i < tags && at + 2 + 12 * (i + 1) <= tiff.limit(); i++) {
      int tag = at + 2 + 12 * i;
      if ((tiff.getShort(tag) & 0xFFFF) == ORIENTATION) {
        int value = tiff.getShort(tag + 8);
        return value >= 1 && value <= 8 ? value : 1;
      }
    }
    return 1;
  }
}
