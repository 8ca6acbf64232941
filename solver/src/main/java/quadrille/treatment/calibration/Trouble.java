package quadrille.treatment.calibration;

import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Pass;

/** Why a recorded visit says nothing about times. */
public sealed interface Trouble {

  /** A part of it is timed, of which no step was done. */
  record NoStepOf(AreaRef area, Pass pass, Numbering numbering) implements Trouble {}

  /** Reasons without figures of their own. */
  enum Known implements Trouble {
    /** Recorded in two of the files, counted once. */
    COUNTED_ONCE,
    INTERRUPTED,
    NO_MINUTES,
    /** Its parts take as long as the whole visit, or longer. */
    PARTS_TOO_LONG
  }
}
