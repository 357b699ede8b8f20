package snick.conformance;

import snick.quantity.Worded;

/** What firmware-protocol.md, version 1, asks of a device, as far as a host can see it. */
public enum Condition implements Worded {
  HELLO("says hello when asked, then answers with its protocol version"),
  PING("repeats the token; its clock goes on"),
  ANSWER_TIME("answers within 100 ms"),
  ANSWER_ONCE("answers every command exactly once, with its tag"),
  BURST("answers commands that come without a pause, in order"),
  STATUS("sends status every second, 0.5 s to 1.5 s"),
  SEQUENCE("numbers samples without a hole that it does not count as dropped"),
  BATCH("lets no sample wait longer than 25 ms for its batch"),
  SPACING("stamps samples evenly, within 20 % of the nominal rate"),
  STOP("sends the batch begun, the answer, and then no samples"),
  START("streams on, from the number that it answered"),
  REPEAT("accepts start while streaming and stop while idle"),
  IN_FORCE("accepts the rate and gain in force without hello"),
  REFUSAL("refuses a rate and a gain it does not have, and says what is in force"),
  CHANGE("says hello with a new gain or rate before it answers"),
  RATE("takes the nearest rate it has within 10 % of the one asked; samples then come at it"),
  UNKNOWN("answers an unknown type UNKNOWN_COMMAND"),
  MALFORMED("answers a command of a wrong length MALFORMED"),
  DAMAGE("answers no frame with a bad CRC and no echo"),
  GARBAGE("answers the first command after garbage"),
  CLOCK("its clock keeps within 1 % of the host's"),
  FRAMES("sends only whole frames with a good CRC");

  private final String words;

  Condition(String words) {
    this.words = words;
  }

  /** Short name, for programs and for the document. */
  public String id() {
    return hyphenated();
  }

  /** What a device does that meets it. */
  public String words() {
    return words;
  }
}
