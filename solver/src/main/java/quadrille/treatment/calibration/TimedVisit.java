package quadrille.treatment.calibration;

import java.util.List;

/**
 * A visit's timed stretches, none of which overlap.
 *
 * @param clinician the practice's own reference for who worked
 */
record TimedVisit(String clinician, List<Stretch> stretches) {

  TimedVisit {
    stretches = List.copyOf(stretches);
  }
}
