package quadrille.diary.booking;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import quadrille.diary.book.InjectorCall;

/**
 * A visit at a time and place.
 *
 * @param caseName whose
 * @param visit its number in the course
 * @param minutes that pass until its end
 * @param clinician id
 * @param chair id
 * @param injectors who comes only to inject, where the clinician may not
 */
public record OfferedVisit(
    String caseName,
    int visit,
    Instant start,
    int minutes,
    String clinician,
    String chair,
    List<InjectorCall> injectors) {

  public OfferedVisit {
    injectors = List.copyOf(injectors);
  }

  /** One whose clinician injects, if anybody does. */
  public OfferedVisit(
      String caseName, int visit, Instant start, int minutes, String clinician, String chair) {
    this(caseName, visit, start, minutes, clinician, chair, List.of());
  }

  public Instant end() {
    return start.plus(Duration.ofMinutes(minutes));
  }
}
