package snick.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PhotoCopyTest {
  private static final String WHERE = "N 12 34";

  /** 80 × 40, red at the left, blue at the right, white below. */
  private static byte[] photo(String form) throws IOException {
    BufferedImage image = new BufferedImage(80, 40, BufferedImage.TYPE_INT_RGB);
    for (int x = 0; x < 80; x++) {
      for (int y = 0; y < 40; y++) {
        Color above = x < 40 ? Color.RED : Color.BLUE;
        image.setRGB(x, y, (y < 20 ? above : Color.WHITE).getRGB());
      }
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ImageIO.write(image, form, bytes);
    return bytes.toByteArray();
  }

  /** A JPEG with an Exif segment: orientation, and text that stands for a place. */
  private static byte[] withExif(int orientation) throws IOException {
    byte[] plain = photo("jpeg");
    ByteBuffer exif = ByteBuffer.allocate(2 + 2 + 6 + 8 + 2 + 12 + 4 + WHERE.length());
    exif.putShort((short) 0xFFE1).putShort((short) (exif.capacity() - 2));
    exif.put("Exif\0\0".getBytes(StandardCharsets.US_ASCII));
    exif.putInt(0x4D4D002A).putInt(8).putShort((short) 1);
    exif.putShort((short) 0x0112).putShort((short) 3).putInt(1).putShort((short) orientation);
    exif.putShort((short) 0).putInt(0).put(WHERE.getBytes(StandardCharsets.US_ASCII));
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    whole.write(plain, 0, 2);
    whole.write(exif.array());
    whole.write(plain, 2, plain.length - 2);
    return whole.toByteArray();
  }

  /** Where the red quarter comes to lie, by what each orientation says of the stored picture. */
  @ParameterizedTest
  @CsvSource({
    "1, left, top",
    "2, right, top",
    "3, right, bottom",
    "4, left, bottom",
    "5, left, top",
    "6, right, top",
    "7, right, bottom",
    "8, left, bottom"
  })
  void standsUpright(int orientation, String side, String end) throws IOException {
    byte[] copy = PhotoCopy.of(withExif(orientation), 1000).orElseThrow();
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(copy));
    assertThat(image.getWidth()).isEqualTo(orientation > 4 ? 40 : 80);
    int x = side.equals("left") ? image.getWidth() / 4 : image.getWidth() * 3 / 4;
    int y = end.equals("top") ? image.getHeight() / 4 : image.getHeight() * 3 / 4;
    Color there = new Color(image.getRGB(x, y));
    assertThat(there.getRed()).isGreaterThan(200);
    assertThat(there.getBlue()).isLessThan(80);
  }

  @Test
  void leavesOutWhatTheCameraWroteBesideThePicture() throws IOException {
    byte[] photo = withExif(1);
    assertThat(new String(photo, StandardCharsets.ISO_8859_1)).contains("Exif", WHERE);
    assertThat(new String(PhotoCopy.of(photo, 1000).orElseThrow(), StandardCharsets.ISO_8859_1))
        .doesNotContain("Exif", WHERE);
  }

  @Test
  void isNoLargerThanAsked() throws IOException {
    byte[] copy = PhotoCopy.of(photo("png"), 20).orElseThrow();
    assertThat(ImageIO.read(new ByteArrayInputStream(copy)).getWidth()).isEqualTo(20);
  }

  @Test
  void whatCannotBeShownIsNotShown() throws IOException {
    byte[] png = photo("png");
    byte[] huge = png.clone();
    ByteBuffer.wrap(huge).putInt(16, 60_000).putInt(20, 60_000);
    assertThat(PhotoCopy.of(huge, 1000)).isEmpty();
    assertThat(PhotoCopy.of(Arrays.copyOf(png, 60), 1000)).isEmpty();
    assertThat(PhotoCopy.of(new byte[] {1, 2, 3}, 1000)).isEmpty();
  }
}
