package quadrille.diary.booking;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import quadrille.diary.booking.problem.CostTerm;

/**
 * A way to book all that a course still lacks.
 *
 * @param visits those that would be booked, in order
 * @param because what speaks for it
 * @param reevaluateFrom first day for the re-evaluation after the last visit
 * @param reevaluateTo last such day
 * @param points what it costs by term, in the order of {@link CostTerm}
 */
public record Offer(
    List<OfferedVisit> visits,
    List<Merit> because,
    LocalDate reevaluateFrom,
    LocalDate reevaluateTo,
    Map<CostTerm, Long> points) {

  public Offer {
    visits = List.copyOf(visits);
    because = List.copyOf(because);
  }

  /** What it costs altogether. */
  public long cost() {
    return points.values().stream().mapToLong(Long::longValue).sum();
  }
}
