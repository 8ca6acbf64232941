package quadrille.cli;

import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import quadrille.cli.render.ChangesText;
import quadrille.cli.render.DoubtWords;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.restaging.Restaged;
import quadrille.treatment.restaging.Restager;

/** Planning on from a course's file. */
final class Restaging {

  @Option(
      names = "--course",
      required = true,
      order = 6,
      paramLabel = "COURSE",
      description = "In place of CHART: a course under way; what it has left is staged again.")
  private String courseFile = "";

  @Option(
      names = "--on",
      order = 7,
      paramLabel = "DAY",
      description =
          "With --course: the next visit's day, so that doses given earlier that day count; without"
              + " it, a day on which none was given.")
  @Nullable
  private LocalDate day;

  @Option(
      names = "--adopt",
      order = 8,
      description =
          "With --course: from now on this plan holds; it goes into the course's log, with the"
              + " practice file that --practice names.")
  private boolean adopt;

  String file() {
    return courseFile;
  }

  /** What a course has left, staged again, with its log as it was then. */
  record Again(CourseLog log, Practice practice, Restaged restaged) {}

  /**
   * @param practice null for the course's own
   * @throws StopException where no plan keeps every rule
   */
  Again stage(@Nullable Practice practice, SearchOptions search, BaseCommand command)
      throws InvalidDocumentException, StopException {
    CourseLog log = CourseFiles.read(file(), command);
    Practice figures = practice == null ? log.practice() : practice;
    try (Seeking seeking = new Seeking(command.streams(), search)) {
      Restager.Outcome outcome =
          new Restager(search.effort(), seeking.stop(), seeking.progress())
              .restage(log, figures, day);
      if (outcome instanceof Restager.Outcome.Unconfirmed doubt) {
        throw StopException.refused(
            DoubtWords.unconfirmed(file(), doubt.statements(), log.numbering(), log.practice()));
      }
      if (outcome instanceof Restager.Outcome.NoCourse none) {
        throw StopException.refused(ChangesText.none(none.clashes(), figures, none.cutShort()));
      }
      return new Again(log, figures, ((Restager.Outcome.Again) outcome).restaged());
    } catch (UnworkableException unworkable) {
      throw StopException.refused(Unworkables.message(unworkable, log.planned().chart()));
    }
  }

  /** Writes the new plan into the log, if that is asked for, and if the log is still the same. */
  void adopt(Again again, BaseCommand command) throws InvalidDocumentException, StopException {
    if (!adopt) {
      return;
    }
    Restaged restaged = again.restaged();
    CourseFiles.write(
        file(),
        recorder ->
            recorder.adopt(
                OffsetDateTime.now(Clock.systemDefaultZone()).truncatedTo(ChronoUnit.SECONDS),
                again.log().entries().size(),
                new Event.Replanned(
                    restaged.course(),
                    restaged.chart(),
                    restaged.changes(),
                    again.practice().equals(again.log().practice()) ? null : again.practice())),
        command);
  }
}
