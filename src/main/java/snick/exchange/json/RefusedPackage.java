package snick.exchange.json;

/**
 * A package is not what it should be. The message names file, place, value, limit and next step;
 * text from the package in it is shortened but not made inert. Nothing was stored.
 */
public final class RefusedPackage extends RuntimeException {
  private static final long serialVersionUID = 1L;
  private static final int SHOWN = 60;

  public RefusedPackage(String message) {
    super(message);
  }

  public RefusedPackage(String message, Throwable cause) {
    super(message, cause);
  }

  /** {@code text} cut to a length that is fit for a message. */
  public static String shown(String text) {
    return text.length() <= SHOWN ? text : text.substring(0, SHOWN) + "…";
  }
}
