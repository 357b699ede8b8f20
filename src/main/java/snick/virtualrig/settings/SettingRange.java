package snick.virtualrig.settings;

/** Range checks of settings and actions, written so that NaN fails. */
public final class SettingRange {
  private SettingRange() {}

  public static void check(String what, double value, double least, double most) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          what + " is " + value + ", from " + least + " to " + most + " allowed");
    }
  }
}
