package quadrille.cli;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.RuleVersion;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;

/** What a plan file is read against: the chart it was made for, or the course it carries on. */
final class PlanAgainst {

  @Option(
      names = "--chart",
      paramLabel = "CHART",
      description = "The chart it was made for; - is standard input.")
  @Nullable
  private String chartFile;

  @ArgGroup(exclusive = false)
  @Nullable
  private UnderWay underWay;

  /** A course under way, and the day of its next visit. */
  private static final class UnderWay {

    @Option(
        names = "--course",
        required = true,
        paramLabel = "COURSE",
        description =
            "In place of --chart: the course that it carries on; what was done, found and given"
                + " there counts.")
    private String courseFile = "";

    @Option(
        names = "--on",
        paramLabel = "DAY",
        description = "With --course: the next visit's day; doses given that day count.")
    @Nullable
    private LocalDate day;
  }

  /** The names of the files; null where one was not given. */
  @Nullable String[] names() {
    return new @Nullable String[] {chartFile, underWay == null ? null : underWay.courseFile};
  }

  /** The chart's name; null where a course is named in its place. */
  @Nullable String chart() {
    return chartFile;
  }

  /**
   * A plan read a second time.
   *
   * @param booked what is promised of its visits, by their number
   * @param findings what its audit found
   */
  record Audited(
      PlanFile plan,
      Chart chart,
      Practice practice,
      Map<Integer, Event.Appointment> booked,
      List<Finding> findings) {}

  /** Reads a plan and what it is read against, and audits it. */
  Audited audited(Gathering.Reading<PlanFile> plan, PracticeOption practice, BaseCommand command)
      throws InvalidDocumentException, StopException {
    Gathering gathering = new Gathering();
    Gathering.Read<PlanFile> planRead = gathering.read(plan);
    UnderWay course = underWay;
    if (course != null) {
      Gathering.Read<CourseLog> log =
          gathering.read(() -> CourseFiles.read(course.courseFile, command));
      gathering.check();
      CourseState state = CourseState.of(log.get());
      Practice figures =
          practice.name() == null ? log.get().practice() : practice.read(command.documents());
      return new Audited(
          planRead.get(),
          state.chart(),
          figures,
          state.booked(),
          Audit.audit(planRead.get(), state.before(course.day), state.chart(), figures));
    }
    String name = Objects.requireNonNull(chartFile);
    Gathering.Read<Chart> chart =
        gathering.read(() -> ChartFile.readOnly(name, command.documents()));
    PlanFile known = planRead.orNull();
    RuleVersion rules = known == null ? RuleVersion.PRESENT : known.course().rules();
    Gathering.Read<Practice> figures =
        gathering.read(() -> practice.read(command.documents(), rules));
    gathering.check();
    return new Audited(
        planRead.get(),
        chart.get(),
        figures.get(),
        Map.of(),
        Audit.audit(planRead.get(), chart.get(), figures.get()));
  }

  /** Reads a plan file by its name. */
  static PlanFile read(String file, Documents documents)
      throws InvalidDocumentException, StopException {
    return PlanReader.read(Documents.name(file), documents.read(file));
  }
}
