package snick.force.mass;

import snick.quantity.Worded;

/** Assumed distribution of a quantity in an uncertainty budget (JCGM 100:2008, 4.3 and 4.4). */
public enum Distribution implements Worded {
  /** Normal: the stated value is already a standard uncertainty. */
  NORMAL,
  /** Student's t: from repeated observations, with degrees of freedom. */
  STUDENT_T,
  /** Rectangular: half-width divided by √3 (JCGM 100:2008, 4.3.7). */
  RECTANGULAR,
  /** Triangular: half-width divided by √6 (JCGM 100:2008, 4.3.9). */
  TRIANGULAR;
}
