package snick.virtualrig.script;

import java.util.Objects;
import java.util.OptionalDouble;
import snick.quantity.Force;
import snick.quantity.Mass;
import snick.virtualrig.settings.SettingRange;

/** One thing that happens at the rig. Plain data. */
public sealed interface Action {
  /**
   * Nothing happens; a hanging mass keeps hanging.
   *
   * @param seconds s, 0 to 10⁷
   */
  record Rest(double seconds) implements Action {
    public Rest {
      SettingRange.check("rest, s,", seconds, 0, 1e7);
    }
  }

  /**
   * Press the edge on the filament until it parts.
   *
   * @param strength force at which the filament parts: the truth to be measured, 0.1 gf to 20 000
   *     gf
   * @param rateGramForcePerSecond loading rate, gf/s, 0.1 to 10⁵
   * @param dips dips before the break, as from a burr, 0 to 20
   * @param inTwoSteps whether a strand is left and parts a little later
   * @param placeMillimetres place on the edge, mm from the heel, if it matters
   */
  record Cut(
      Force strength,
      double rateGramForcePerSecond,
      int dips,
      boolean inTwoSteps,
      OptionalDouble placeMillimetres)
      implements Action {
    public Cut {
      SettingRange.check("strength, gf,", strength.gramForce(), 0.1, 20_000);
      SettingRange.check("loading rate, gf/s,", rateGramForcePerSecond, 0.1, 1e5);
      SettingRange.check("dips", dips, 0, 20);
      Objects.requireNonNull(placeMillimetres);
    }

    /** A clean cut: strength in gf, loading rate in gf/s. */
    public static Cut ofGramForce(double strengthGramForce, double rateGramForcePerSecond) {
      return new Cut(
          Force.ofGramForce(strengthGramForce),
          rateGramForcePerSecond,
          0,
          false,
          OptionalDouble.empty());
    }

    /** The same with dips before the break. */
    public Cut withDips(int number) {
      return new Cut(strength, rateGramForcePerSecond, number, inTwoSteps, placeMillimetres);
    }

    /** The same, parting in two steps. */
    public Cut partingInTwoSteps() {
      return new Cut(strength, rateGramForcePerSecond, dips, true, placeMillimetres);
    }

    /** The same at a place on the edge, mm from the heel. */
    public Cut atMillimetres(double fromHeel) {
      return new Cut(
          strength, rateGramForcePerSecond, dips, inTwoSteps, OptionalDouble.of(fromHeel));
    }
  }

  /**
   * Press up to a force and lift the edge again.
   *
   * @param peak force at which the hand turns back, without its tremor, up to 20 000 gf
   * @param rateGramForcePerSecond loading and unloading rate, gf/s, 0.1 to 10⁵
   */
  record Release(Force peak, double rateGramForcePerSecond) implements Action {
    public Release {
      SettingRange.check("peak, gf,", peak.gramForce(), 0.1, 20_000);
      SettingRange.check("loading rate, gf/s,", rateGramForcePerSecond, 0.1, 1e5);
    }
  }

  /**
   * Hang a mass in place of what hangs, and let it settle.
   *
   * @param mass conventional mass, at most 20 kg; 0 takes the mass off
   */
  record Hang(Mass mass) implements Action {
    public Hang {
      SettingRange.check("hanging mass, kg,", mass.kilograms(), 0, 20);
    }

    /** A mass of {@code grams} g. */
    public static Hang ofGrams(double grams) {
      return new Hang(Mass.ofGrams(grams));
    }

    /** Take off whatever hangs. */
    public static Hang nothing() {
      return ofGrams(0);
    }
  }

  /**
   * Flick the fixture with a finger: a short push, half a sine wave of 4 ms.
   *
   * @param peak its greatest force, at most 2000 gf
   */
  record Flick(Force peak) implements Action {
    public Flick {
      SettingRange.check("flick, gf,", peak.gramForce(), 0.1, 2000);
    }
  }

  /** Cut the thread of the hanging mass: a step of exactly known force. Nothing if none hangs. */
  record CutThread() implements Action {}
}
