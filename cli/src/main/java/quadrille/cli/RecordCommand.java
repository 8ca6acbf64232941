package quadrille.cli;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.document.Fault;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.Corrected;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.record.VisitRecordReader;

/** {@code quadrille record}: a course's log. */
@Command(
    name = "record",
    customSynopsis = {
      "quadrille record COURSE --start PLAN --chart CHART",
      "       quadrille record COURSE --visit N --date DAY --clinician NAME",
      "                               --minutes MIN [OPTION ...]",
      "       quadrille record COURSE --from FILE | --ask | --show",
      "       quadrille record COURSE --book ... | --booked-in DIARY"
    },
    description = {
      "Keep what a course's visits really did.",
      "",
      "A course file is a log: it begins with a plan, and every record, booking and",
      "new plan is added at its end. Nothing is ever taken out; a correction is an",
      "entry of its own, and counts from then on.",
      "",
      "What is not said of a visit is taken from the plan: its steps were done, its",
      "injections given. The minutes must be said. Teeth are ISO 3950 codes.",
      "",
      "With none of the options below, it shows where the course stands. With",
      "--show --format html, the same as pages to look at and print, for the",
      "practice and for the patient."
    })
final class RecordCommand extends BaseCommand {

  @Parameters(paramLabel = "COURSE", description = "The course's file.")
  private String courseFile = "";

  @Option(
      names = "--start",
      order = 10,
      paramLabel = "PLAN",
      description = "Begin a course with a plan file, which must pass its audit.")
  @Nullable
  private String start;

  @Option(
      names = "--chart",
      order = 11,
      paramLabel = "CHART",
      description = "With --start: the chart that the plan was made for.")
  @Nullable
  private String chartFile;

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  @Mixin private VisitOptions said = new VisitOptions();

  @Option(
      names = "--from",
      order = 40,
      paramLabel = "FILE",
      description = "A visit's record as JSON; - is standard input.")
  @Nullable
  private String from;

  @Option(names = "--ask", order = 41, description = "Ask for a visit's record.")
  private boolean ask;

  @Option(
      names = "--correct",
      order = 42,
      paramLabel = "ENTRY",
      description = "What is said takes the place of an entry's record, whole.")
  @Nullable
  private Integer correct;

  @Option(
      names = "--why",
      order = 43,
      paramLabel = "TEXT",
      description = "With --correct: what was wrong.")
  private String why = "";

  @Option(
      names = "--book",
      order = 44,
      paramLabel = "VISIT",
      description =
          "A visit promised: number, start, minutes, and who, as"
              + " \"2 2026-03-09T09:30 60 C2\"; may be repeated.")
  private List<String> bookings = List.of();

  @Option(
      names = "--booked-in",
      order = 45,
      paramLabel = "DIARY",
      description = "The visits to come that a diary has promised for this course.")
  @Nullable
  private String diaryFile;

  @Option(names = "--show", order = 46, description = "Every entry, and where the course stands.")
  private boolean show;

  @Option(
      names = "--at",
      order = 47,
      paramLabel = "TIME",
      description = "When the entry is written, as 2026-03-02T12:00:00+01:00; without it, now.")
  @Nullable
  private OffsetDateTime at;

  @Mixin private ShowOptions showing = new ShowOptions();

  RecordCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    long ways =
        List.of(
                start != null,
                from != null,
                ask,
                said.any(),
                !bookings.isEmpty(),
                diaryFile != null)
            .stream()
            .filter(way -> way)
            .count();
    if (ways > 1) {
      throw StopException.usage(
          "--start, --from, --ask, --book, --booked-in and what is said of a visit: one of them at"
              + " a time.");
    }
    if ((chartFile != null || practiceOption.name() != null) && start == null) {
      throw StopException.usage("--chart and --practice: go with --start.");
    }
    if ((correct != null || !why.isEmpty()) && from == null && !ask && !said.any()) {
      throw StopException.usage("--correct and --why: go with what is said of a visit.");
    }
    if (correct == null && !why.isEmpty()) {
      throw StopException.usage("--why: goes with --correct.");
    }
    if (correct != null && correct < 2) {
      throw StopException.usage(
          "--correct: is " + correct + "; the number of a visit's entry is allowed, 2 or more.");
    }
    said.check();
    boolean shown = show || ways == 0;
    showing.check(
        format(Format.TEXT),
        shown,
        courseFile,
        start,
        chartFile,
        from,
        practiceOption.name(),
        diaryFile);
    if (start != null) {
      begin(start);
    } else if (!bookings.isEmpty()) {
      List<Event.Appointment> visits = appointments();
      CourseFiles.append(courseFile, time(), log -> booked(log, visits), this);
    } else if (diaryFile != null) {
      Diary diary = DiaryFiles.read(diaryFile, streams().files()).diary();
      CourseFiles.append(courseFile, time(), log -> bookedIn(log, diary), this);
    } else if (ways == 1) {
      record();
    }
    if (shown) {
      showing.write(CourseFiles.read(courseFile, this), format(Format.TEXT), show, this);
    }
    return Status.DONE;
  }

  /** The entry that is corrected; 0 where none is. */
  private int corrects() {
    return correct == null ? 0 : correct;
  }

  private OffsetDateTime time() {
    return at == null ? OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS) : at;
  }

  private void begin(String planFile) throws InvalidDocumentException, StopException {
    String chartName = chartFile;
    if (chartName == null) {
      throw StopException.usage("--start: needs --chart, the chart of the plan.");
    }
    Gathering gathering = new Gathering();
    Gathering.Read<PlanFile> plan =
        gathering.read(() -> PlanReader.read(Documents.name(planFile), documents().read(planFile)));
    Gathering.Read<Chart> chart = gathering.read(() -> ChartFile.read(chartName, documents()));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();
    List<Finding> findings = Audit.audit(plan.get(), chart.get(), practice.get());
    if (!findings.isEmpty()) {
      findings.forEach(finding -> message(finding.line()));
      throw StopException.refused(
          Documents.name(planFile) + ": does not pass its audit, so no course begins with it.");
    }
    CourseFiles.begin(
        courseFile,
        time(),
        new Event.Planned(plan.get().course(), chart.get(), practice.get()),
        this);
  }

  private void record() throws InvalidDocumentException, StopException {
    @Nullable String text = from == null ? null : documents().read(from);
    VisitOptions options = said;
    if (ask) {
      options = new Questions(streams(), CourseFiles.read(courseFile, this), corrects()).ask();
    }
    VisitOptions answers = options;
    List<Fault> wrongOptions = new ArrayList<>();
    try {
      CourseFiles.append(
          courseFile,
          time(),
          log -> {
            VisitDone done = visit(log, text, answers, wrongOptions);
            return corrects() > 0 ? new Corrected(corrects(), done, why) : done;
          },
          this);
    } catch (InvalidDocumentException invalid) {
      if (wrongOptions.isEmpty()) {
        throw invalid;
      }
      throw StopException.usage(
          String.join("\n", invalid.faults().stream().map(Fault::message).toList()));
    }
  }

  /** With the log locked, so that two records of a visit cannot both be taken. */
  private VisitDone visit(
      CourseLog log, @Nullable String text, VisitOptions options, List<Fault> wrongOptions)
      throws InvalidDocumentException {
    if (text != null) {
      return VisitRecordReader.read(
          Documents.name(Objects.requireNonNull(from)), text, log, corrects());
    }
    Faults faults = new Faults();
    try {
      return VisitRecordReader.read(options.tree(faults), faults, log, corrects());
    } catch (InvalidDocumentException invalid) {
      wrongOptions.addAll(invalid.faults());
      throw invalid;
    }
  }

  private List<Event.Appointment> appointments() throws StopException {
    List<Event.Appointment> visits = new ArrayList<>();
    for (String booking : bookings) {
      String[] words = booking.strip().split(" +", 4);
      try {
        if (words.length >= 3) {
          visits.add(
              new Event.Appointment(
                  Integer.parseInt(words[0]),
                  LocalDateTime.parse(words[1]),
                  Integer.parseInt(words[2]),
                  words.length == 4 ? words[3] : null));
          continue;
        }
      } catch (DateTimeException | NumberFormatException e) {
        // Told below.
      }
      throw StopException.usage(
          "--book: found \""
              + booking
              + "\"; allowed: a visit, its start, its minutes and who, such as"
              + " \"2 2026-03-09T09:30 60 C2\"");
    }
    return visits;
  }

  private static Event booked(CourseLog log, List<Event.Appointment> visits)
      throws InvalidDocumentException {
    List<Fault> faults = new ArrayList<>();
    List<Integer> open =
        CourseState.of(log).toCome().stream().map(visit -> visit.number()).toList();
    for (Event.Appointment visit : visits) {
      if (!open.contains(visit.visit())) {
        faults.add(
            new Fault("--book", "visit " + visit.visit(), "a visit to come, one of " + open));
      }
      if (visit.minutes() < 1) {
        faults.add(new Fault("--book", visit.minutes() + " minutes", "1 or more"));
      }
    }
    if (!faults.isEmpty()) {
      throw new InvalidDocumentException(faults);
    }
    return new Event.Booked(visits);
  }

  /** What a diary has promised of the visits to come, where the log does not have it yet. */
  private Event bookedIn(CourseLog log, Diary diary) throws InvalidDocumentException {
    CourseState state = CourseState.of(log);
    String name = state.course().caseName();
    List<Event.Appointment> visits = new ArrayList<>();
    for (Visit visit : state.toCome()) {
      diary
          .standing(name, visit.number())
          .filter(booking -> booking.status() == BookingStatus.PROMISED)
          .map(
              booking ->
                  new Event.Appointment(
                      visit.number(),
                      booking.start().atZone(diary.zone()).toLocalDateTime(),
                      booking.minutes(),
                      booking.clinician()))
          .filter(promised -> !promised.equals(state.booked().get(visit.number())))
          .ifPresent(visits::add);
    }
    if (visits.isEmpty()) {
      throw new InvalidDocumentException(
          List.of(
              new Fault(
                  Documents.name(Objects.requireNonNull(diaryFile)),
                  "no promised visit of " + name + " that the course does not have already",
                  "a visit to come, booked for this course")));
    }
    return new Event.Booked(visits);
  }
}
