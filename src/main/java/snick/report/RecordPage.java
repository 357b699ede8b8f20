package snick.report;

/** stub */
public final class RecordPage {
  private RecordPage() {}

  public static String of(CalibrationRecord r) {
    return "";
  }
}
