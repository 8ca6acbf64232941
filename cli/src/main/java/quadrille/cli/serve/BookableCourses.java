package quadrille.cli.serve;

import java.io.IOException;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.VisitRequest;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.recording.LoggedPlan;

/** Courses for which times can be offered: accepted ones of the folder, and those of the diary. */
final class BookableCourses {

  private final PracticeFolder folder;

  BookableCourses(PracticeFolder folder) {
    this.folder = folder;
  }

  /**
   * A course that lacks bookings.
   *
   * @param id what forms call it
   * @param visits numbers of the visits without a booking
   * @param log the accepted course's; null where only the diary knows it
   */
  record Open(String id, String caseName, List<Integer> visits, @Nullable CourseLog log) {

    /** Its plan without the visits that took place; null where only the diary knows it. */
    @Nullable Course plan() {
      CourseLog from = log;
      if (from == null) {
        return null;
      }
      CourseState state = CourseState.of(from);
      return state.course().withVisits(state.toCome());
    }

    /** What the second reading finds in its plan. */
    List<Finding> audit() {
      return log == null ? List.of() : LoggedPlan.of(log).audit();
    }

    /** The first day on which the next visit may be, by what took place though no diary has it. */
    LocalDate from(LocalDate day) {
      CourseState state = log == null ? null : CourseState.of(log);
      LocalDate last = state == null ? null : state.lastDay();
      LocalDate least =
          state == null || last == null ? day : last.plusDays(state.course().gapMinDays());
      return least.isAfter(day) ? least : day;
    }

    /** The last day by which what took place lets all visits be, where no diary has it. */
    LocalDate until(LocalDate day, Diary diary) {
      LocalDate latest = day;
      if (log != null) {
        CourseState state = CourseState.of(log);
        for (Course.FinishWithin one : state.course().finishWithin()) {
          for (CourseLog.Recorded took : state.recorded()) {
            LocalDate by = took.done().date().plusDays(one.days());
            if (took.done().visit() == one.from()
                && diary.standing(caseName, one.from()).isEmpty()
                && by.isBefore(latest)) {
              latest = by;
            }
          }
        }
      }
      return latest;
    }
  }

  /** All, those of the diary first, in the order in which they asked. */
  List<Open> of(Diary diary) throws IOException {
    Map<String, CourseLog> logs = new LinkedHashMap<>();
    for (PracticeFolder.Log log : folder.logs(unread -> {})) {
      logs.merge(
          log.log().planned().course().caseName(),
          log.log(),
          (one, other) ->
              one.entries().get(0).at().isAfter(other.entries().get(0).at()) ? one : other);
    }
    Map<String, Open> open = new LinkedHashMap<>();
    Map<String, List<VisitRequest>> unbooked = diary.unbooked();
    for (CourseRequest course : diary.courses()) {
      @Nullable CourseLog log = logs.remove(course.caseName());
      List<Integer> lacks =
          unbooked.getOrDefault(course.caseName(), List.of()).stream()
              .map(VisitRequest::number)
              .toList();
      add(open, course.caseName(), course.ended() == null ? log : null, lacks, diary);
    }
    logs.forEach((name, log) -> add(open, name, log, List.of(), diary));
    return List.copyOf(open.values());
  }

  private void add(
      Map<String, Open> open,
      String name,
      @Nullable CourseLog log,
      List<Integer> lacks,
      Diary diary) {
    List<Integer> visits =
        log == null
            ? lacks
            : CourseState.of(log).toCome().stream()
                .map(Visit::number)
                .filter(number -> diary.standing(name, number).isEmpty())
                .toList();
    if (!visits.isEmpty()) {
      open.put(name, new Open(id(name), name, visits, log));
    }
  }

  /** What forms call a course, which tells nothing of the patient. */
  String id(String caseName) {
    return folder.id("case/" + caseName);
  }

  Optional<Open> named(Diary diary, String id) throws IOException {
    return of(diary).stream().filter(one -> one.id().equals(id)).findFirst();
  }
}
