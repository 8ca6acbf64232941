package quadrille.plan.planning;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Practice;
import quadrille.plan.exact.ExactCourses;

/**
 * What planners of one mouth share: sets of areas that were priced for one serve the others.
 * Practices that differ in nothing but their longest visit and what a tray holds have one table,
 * which reaches as far as the loosest of them. The courses are the same as without it.
 */
public final class PlanTables {
  private static final Figure ANY = new Figure(1, Figure.OWN);

  private final Map<Key, ExactCourses> tables = new ConcurrentHashMap<>();
  private final Map<Practice, Practice> loosest = new HashMap<>();

  /**
   * By what a table is known, for one patient.
   *
   * @param work what is staged
   * @param visits the most visits that will be asked for
   */
  private record Key(
      Object work, int visits, boolean numbFirst, boolean grossFirst, Practice practice) {}

  /** For one practice. */
  PlanTables() {}

  /** For practices that will be planned by. */
  public PlanTables(List<Practice> practices) {
    for (Practice practice : practices) {
      loosest.merge(like(practice), practice, PlanTables::looser);
    }
  }

  private static Practice with(Practice practice, Figure longest, Figure holds) {
    Appointments limits = practice.appointments();
    return practice.withAppointments(limits.withLongestVisitMinutes(longest).withKitHolds(holds));
  }

  private static Practice like(Practice practice) {
    return with(practice, ANY, ANY);
  }

  private static Practice looser(Practice one, Practice other) {
    return with(
        one,
        larger(
            one.appointments().longestVisitMinutes(), other.appointments().longestVisitMinutes()),
        larger(one.appointments().kitHolds(), other.appointments().kitHolds()));
  }

  private static Figure larger(Figure one, Figure other) {
    return one.value() >= other.value() ? one : other;
  }

  /**
   * The table for some work.
   *
   * @param visits the most visits that will be asked for
   * @param made makes one that reaches as far as a practice allows
   */
  ExactCourses of(
      Object work,
      int visits,
      boolean numbFirst,
      boolean grossFirst,
      Practice practice,
      Function<Practice, ExactCourses> made) {
    Practice far = loosest.isEmpty() ? practice : loosest.getOrDefault(like(practice), practice);
    ExactCourses shared = of(new Key(work, visits, numbFirst, grossFirst, far), made);
    // Where that is too many sets, there may be few enough within the practice's own limits.
    return shared.answers() || far.equals(practice)
        ? shared
        : of(new Key(work, visits, numbFirst, grossFirst, practice), made);
  }

  private ExactCourses of(Key key, Function<Practice, ExactCourses> made) {
    return Objects.requireNonNull(tables.computeIfAbsent(key, one -> made.apply(one.practice())));
  }
}
