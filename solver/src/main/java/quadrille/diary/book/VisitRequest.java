package quadrille.diary.book;

import java.util.List;

/**
 * What a visit of a course asks of the diary. Gaps count days of the calendar in the practice's
 * zone: from one day to the next is 1.
 *
 * @param number in the course
 * @param minutes to book
 * @param needs what its clinician must be allowed to do
 * @param sets names of sterile sets that it uses, one of each; a name twice for two
 * @param gapMinDays fewest days after the visit before; 0 in the first visit
 * @param gapMaxDays most days after the visit before; 0 in the first visit, where it means nothing
 */
public record VisitRequest(
    int number,
    int minutes,
    List<Capability> needs,
    List<String> sets,
    int gapMinDays,
    int gapMaxDays) {

  public VisitRequest {
    needs = List.copyOf(needs);
    sets = List.copyOf(sets);
  }

  public boolean injections() {
    return needs.contains(Capability.INJECT);
  }
}
