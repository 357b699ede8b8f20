package snick.cli.bench;

import java.util.Locale;
import java.util.Map;
import snick.force.check.CheckResult;
import snick.json.Json;
import snick.phrase.Words;

/**
 * One line of the rig's health.
 *
 * @param check what was looked at, one word
 * @param grade how it is
 * @param measured what was measured
 * @param expected what is expected
 * @param meaning what it means
 * @param remedy what to do; empty if nothing
 */
record HealthLine(
    String check,
    CheckResult.Grade grade,
    String measured,
    String expected,
    String meaning,
    String remedy) {
  static HealthLine of(CheckResult finding) {
    Words words = Words.english();
    return new HealthLine(
        finding.check().word(),
        finding.grade(),
        words.say(finding.measured()),
        words.say(finding.expected()),
        words.say(finding.meaning()),
        finding.remedy().map(words::say).orElse(""));
  }

  static HealthLine pass(String check, String measured, String expected) {
    return new HealthLine(check, CheckResult.Grade.PASS, measured, expected, "as it should be", "");
  }

  /** What there is nothing to judge by, and how to find out. */
  static HealthLine unknown(String check, String why, String remedy) {
    return new HealthLine(check, CheckResult.Grade.UNKNOWN, "-", "-", why, remedy);
  }

  static HealthLine warn(
      String check, String measured, String expected, String meaning, String remedy) {
    return new HealthLine(check, CheckResult.Grade.WARN, measured, expected, meaning, remedy);
  }

  static HealthLine fail(
      String check, String measured, String expected, String meaning, String remedy) {
    return new HealthLine(check, CheckResult.Grade.FAIL, measured, expected, meaning, remedy);
  }

  /** The grade for people. */
  String word() {
    return switch (grade) {
      case PASS -> "ok";
      case UNKNOWN -> "not known";
      case WARN, FAIL -> grade.word().toUpperCase(Locale.ROOT);
    };
  }

  Map<String, Object> json() {
    return Json.object(
        "check", check,
        "grade", grade.word(),
        "measured", measured,
        "expected", expected,
        "meaning", meaning,
        "remedy", remedy);
  }
}
