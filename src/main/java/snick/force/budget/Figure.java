package snick.force.budget;

import snick.phrase.Phrase;

/**
 * A figure of merit of a calibrated rig. In the terms of standards, but no classification under
 * them.
 *
 * @param name short name, for example reversibility
 * @param value value
 * @param unit {@code %} of the reading or of the largest deflection as the definition says, or
 *     {@code gf}
 * @param definition how it was worked out
 * @param source where the definition comes from
 */
public record Figure(Phrase name, double value, String unit, Phrase definition, Phrase source) {}
