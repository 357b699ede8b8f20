package snick.exchange.read;

import snick.cut.Trace;

/** Traces of the cuts of a package, one after the other. */
@FunctionalInterface
public interface Traces {
  /** The trace of the cut with this number, which comes next. */
  Trace next(int cut);
}
