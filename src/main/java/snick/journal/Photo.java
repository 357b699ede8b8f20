package snick.journal;

import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snick.phrase.NotAccepted;

/**
 * A photo of an edge, by what is in it: its bytes lie beside the store.
 *
 * @param sha256 SHA-256 of its bytes (FIPS 180-4), 64 lower-case hexadecimal digits
 * @param kind what kind of file it is
 */
public record Photo(String sha256, Kind kind) {
  /** The largest that is taken. */
  public static final int MOST_BYTES = 20_000_000;

  private static final Pattern NAME = Pattern.compile("([0-9a-f]{64})\\.(jpg|png)");

  /** What kinds are taken, told by their first bytes (ITU-T T.81, B.1.1; ISO/IEC 15948, 5.2). */
  public enum Kind {
    JPEG("jpg", "ffd8ff"),
    PNG("png", "89504e470d0a1a0a");

    private final String ending;
    private final String first;

    Kind(String ending, String first) {
      this.ending = ending;
      this.first = first;
    }

    /**
     * The kind of a whole photo.
     *
     * @throws NotAccepted if it is too large or neither
     */
    public static Kind of(byte[] content) {
      if (content.length > MOST_BYTES) {
        throw new NotAccepted("refused.photo_too_large", "mb", MOST_BYTES / 1_000_000);
      }
      String beginning = HexFormat.of().formatHex(content, 0, Math.min(content.length, 8));
      return Arrays.stream(values())
          .filter(kind -> beginning.startsWith(kind.first))
          .findFirst()
          .orElseThrow(() -> new NotAccepted("refused.photo_of_another_kind"));
    }

    /** Its media type, for example {@code image/jpeg}. */
    public String mediaType() {
      return "image/" + name().toLowerCase(Locale.ROOT);
    }
  }

  public Photo {
    if (!sha256.matches("[0-9a-f]{64}")) {
      throw new NotAccepted("refused.photo_name");
    }
  }

  /** The name of its file, for example {@code 9f86….jpg}. */
  public String name() {
    return sha256 + "." + kind.ending;
  }

  /** The photo whose file has this name; empty if no photo has such a name. */
  public static Optional<Photo> named(String name) {
    Matcher parts = NAME.matcher(name);
    return parts.matches()
        ? Arrays.stream(Kind.values())
            .filter(kind -> kind.ending.equals(parts.group(2)))
            .findFirst()
            .map(kind -> new Photo(parts.group(1), kind))
        : Optional.empty();
  }
}
