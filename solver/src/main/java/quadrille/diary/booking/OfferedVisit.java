package quadrille.diary.booking;

import java.time.Duration;
import java.time.Instant;

/**
 * A visit at a time and place.
 *
 * @param caseName whose
 * @param visit its number in the course
 * @param minutes that pass until its end
 * @param clinician id
 * @param chair id
 */
public record OfferedVisit(
    String caseName, int visit, Instant start, int minutes, String clinician, String chair) {

  public Instant end() {
    return start.plus(Duration.ofMinutes(minutes));
  }
}
