package quadrille.diary.book;

import java.util.List;
import quadrille.document.Withers;
import quadrille.plan.course.StopQuestion;

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
 * @param stopQuestions what a person answers before anything is touched, in the order in which it
 *     is asked; for the practice alone, never for the patient's calendar
 * @param needles when someone must be there who may inject, in order, apart from each other; empty
 *     where only a clinician who may inject can treat a visit that has injections
 */
@Withers
public record VisitRequest(
    int number,
    int minutes,
    List<Capability> needs,
    List<String> sets,
    int gapMinDays,
    int gapMaxDays,
    List<StopQuestion> stopQuestions,
    List<NeedleTime> needles)
    implements VisitRequestBuilder.With {

  public VisitRequest {
    needs = List.copyOf(needs);
    sets = List.copyOf(sets);
    stopQuestions = List.copyOf(stopQuestions);
    needles = List.copyOf(needles);
  }

  /** A visit before which nothing has to be asked, and whose own clinician injects, if any does. */
  public VisitRequest(
      int number,
      int minutes,
      List<Capability> needs,
      List<String> sets,
      int gapMinDays,
      int gapMaxDays) {
    this(number, minutes, needs, sets, gapMinDays, gapMaxDays, List.of(), List.of());
  }

  /** Whether a clinician needs another who comes to inject: they may not, and may do the rest. */
  public boolean aided(Clinician clinician) {
    return !needles.isEmpty()
        && injections()
        && !clinician.mayInject()
        && needs.stream()
            .allMatch(need -> need == Capability.INJECT || clinician.may().contains(need));
  }

  public boolean injections() {
    return needs.contains(Capability.INJECT);
  }
}
