package snick.journal;

import java.util.HashMap;
import java.util.Map;
import snick.quantity.Worded;

/**
 * How an edge was inspected for a burr. Options, journal, JSON and page ask this list; a new way
 * needs its words in the catalog and, if it bears on the evidence, a place there.
 */
public enum Method implements Worded {
  /** Light almost along the bevel: a burr glints or throws a shadow. */
  RAKING_LIGHT("light"),
  /** Fingertip moved away from the edge, never along it. */
  FINGERTIP("finger fingertip f"),
  /** Loupe or microscope, with its magnification. */
  MAGNIFIER("magnifier"),
  /** Cut through thin paper. */
  THIN_PAPER("paper p"),
  /** Cotton drawn off the edge: a burr pulls fibres. */
  COTTON_DRAG("cotton"),
  /** Edge drawn over a fingernail at rest: a burr catches. */
  NAIL_DRAG("nail"),
  /** Anything else; the note says what. */
  FREE("free");

  private final String typed;

  /** Of the words that are typed for it. */
  Method(String typed) {
    this.typed = typed;
  }

  /** The method of each word that is typed as it stands. */
  static Map<String, Method> byTypedWord() {
    Map<String, Method> methods = new HashMap<>();
    for (Method method : values()) {
      for (String word : method.typed.split(" ", -1)) {
        methods.put(word, method);
      }
    }
    return methods;
  }
}
