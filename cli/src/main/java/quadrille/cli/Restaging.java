package quadrille.cli;

import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
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
import quadrille.treatment.restaging.WayOn;

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

  @Option(
      names = "--way",
      order = 9,
      paramLabel = "N",
      description =
          "With --course: another of the ways to go on, by its number; they are listed where"
              + " there are several.")
  private int way = 1;

  String file() {
    return courseFile;
  }

  /**
   * What a course has left, staged again, with its log as it was then.
   *
   * @param ways all in which it may go on
   * @param taken the number of the one that is taken, 1, 2, 3 …
   */
  record Again(CourseLog log, Practice practice, List<WayOn> ways, int taken) {

    Restaged restaged() {
      return ways.get(taken - 1).restaged();
    }
  }

  /**
   * @param practice null for the course's own
   * @throws StopException where no plan keeps every rule
   */
  Again stage(@Nullable Practice practice, SearchOptions search, BaseCommand command)
      throws InvalidDocumentException, StopException {
    CourseLog log = CourseFiles.read(file(), command);
    Practice figures = practice == null ? log.practice() : practice;
    try (Seeking seeking = new Seeking(command.streams(), search.deadline())) {
      Restager restager = new Restager(search.effort(), seeking.stop(), seeking.progress());
      Restager.Outcome outcome = restager.restage(log, figures, day);
      if (outcome instanceof Restager.Outcome.Unconfirmed doubt) {
        throw StopException.refused(
            DoubtWords.unconfirmed(file(), doubt.statements(), log.numbering(), log.practice()));
      }
      if (outcome instanceof Restager.Outcome.NoCourse none) {
        throw StopException.refused(ChangesText.none(none.clashes(), figures, none.cutShort()));
      }
      List<WayOn> ways =
          restager.ways(log, figures, day, ((Restager.Outcome.Again) outcome).restaged());
      if (way < 1 || way > ways.size()) {
        throw StopException.usage(
            "--way: is "
                + way
                + "; "
                + (ways.size() == 1
                    ? "there is no way but 1"
                    : "1 to " + ways.size() + " are allowed")
                + ".");
      }
      return new Again(log, figures, ways, way);
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
