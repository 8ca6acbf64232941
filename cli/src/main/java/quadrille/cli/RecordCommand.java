package quadrille.cli;

import java.time.Clock;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.recording.Recorder;
import quadrille.treatment.recording.Said;

/** {@code quadrille record}: a course's log. */
@Command(
    name = "record",
    customSynopsis = {
      "quadrille record COURSE --start PLAN --chart CHART",
      "       quadrille record COURSE --visit N --date DAY --clinician NAME",
      "                               --minutes MIN [OPTION ...]",
      "       quadrille record COURSE --from FILE | --ask | --show",
      "       quadrille record COURSE --book ... | --booked-in DIARY",
      "       quadrille record COURSE --confirm-teeth TEETH --by NAME"
    },
    description = {
      "Keep what a course's visits really did.",
      "",
      "A course file is a log: it begins with a plan, and every record, booking and",
      "new plan is added at its end. Nothing is ever taken out; a correction is an",
      "entry of its own, and counts from then on.",
      "",
      "What is not said of a visit is taken from the plan: its steps were done, its",
      "injections given. The minutes must be said. Teeth are named as the chart",
      "names them.",
      "",
      "With none of the options below, it shows where the course stands. With",
      "--show --format html, the same as pages to look at and print, for the",
      "practice and for the patient."
    })
final class RecordCommand extends BaseCommand {

  @Parameters(paramLabel = "COURSE", description = "The course's file.")
  private String courseFile = "";

  @ArgGroup @Nullable private Way way;

  /** What to add to the log; one at a time. */
  static final class Way {
    @ArgGroup(exclusive = false, multiplicity = "1")
    @Nullable Beginning beginning;

    @ArgGroup(exclusive = false, multiplicity = "1")
    @Nullable OfVisit record;

    @ArgGroup(exclusive = false, multiplicity = "1")
    @Nullable Bookings bookings;

    @Option(
        names = "--booked-in",
        order = 45,
        paramLabel = "DIARY",
        description = "The visits to come that a diary has promised for this course.")
    @Nullable String diary;

    @ArgGroup(exclusive = false, multiplicity = "1")
    @Nullable Confirmation confirmation;
  }

  static final class Beginning {
    @Option(
        names = "--start",
        order = 10,
        required = true,
        paramLabel = "PLAN",
        description = "Begin a course with a plan file, which must pass its audit.")
    String plan = "";

    @Option(
        names = "--chart",
        order = 11,
        required = true,
        paramLabel = "CHART",
        description = "With --start: the chart that the plan was made for.")
    String chart = "";

    @ArgGroup(exclusive = false)
    PracticeOption practice = new PracticeOption();
  }

  static final class OfVisit {
    @ArgGroup(multiplicity = "1")
    Source source = new Source();

    @Option(
        names = "--done-in",
        order = 44,
        paramLabel = "DIARY",
        description = "Also say in a diary that the visit took place.")
    @Nullable String diary;

    @ArgGroup(exclusive = false)
    @Nullable Correction correction;
  }

  static final class Source {
    @ArgGroup(exclusive = false, multiplicity = "1")
    @Nullable VisitOptions options;

    @Option(
        names = "--from",
        order = 40,
        paramLabel = "FILE",
        description = "A visit's record as JSON; - is standard input.")
    @Nullable String file;

    @Option(names = "--ask", order = 41, description = "Ask for a visit's record.")
    boolean ask;
  }

  static final class Correction {
    @Option(
        names = "--correct",
        order = 42,
        required = true,
        paramLabel = "ENTRY",
        description =
            "What is said changes an entry's record; what is not said stays as it was recorded.")
    int entry;

    @Option(
        names = "--why",
        order = 43,
        paramLabel = "TEXT",
        description = "With --correct: what was wrong; - reads it from standard input.")
    String why = "";
  }

  static final class Bookings {
    @Option(
        names = "--book",
        order = 44,
        paramLabel = "VISIT",
        description =
            "A visit promised: number, start, minutes, and who, as"
                + " \"2 2026-03-09T09:30 60 C2\"; may be repeated.")
    List<String> visits = new ArrayList<>();
  }

  static final class Confirmation {
    @Option(
        names = "--confirm-teeth",
        order = 50,
        required = true,
        split = "[ ,]+",
        hideParamSyntax = true,
        paramLabel = "TEETH",
        description =
            "These teeth are right as --show lists them: in an old log of a chart numbered 1 to 32"
                + " they may be others than were meant.")
    List<String> teeth = new ArrayList<>();

    @Option(
        names = "--by",
        order = 51,
        required = true,
        paramLabel = "NAME",
        description = "With --confirm-teeth: who says so.")
    String by = "";
  }

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
  OutputOption output() {
    return showing.output();
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    boolean shown = show || way == null;
    showing.check(format(Format.TEXT), shown, courseFile, inputs());
    if (way != null) {
      add(way);
    }
    if (shown) {
      showing.write(CourseFiles.read(courseFile, this), format(Format.TEXT), show, this);
    }
    return Status.DONE;
  }

  /** The other files that are read; null where one is not given. */
  private @Nullable String[] inputs() {
    if (way == null) {
      return new String[0];
    }
    Beginning beginning = way.beginning;
    return new @Nullable String[] {
      beginning == null ? null : beginning.plan,
      beginning == null ? null : beginning.chart,
      beginning == null ? null : beginning.practice.name(),
      way.record == null ? null : way.record.source.file,
      way.record == null ? null : way.record.diary,
      way.diary
    };
  }

  private void add(Way what) throws InvalidDocumentException, StopException {
    if (what.beginning != null) {
      begin(what.beginning);
    } else if (what.record != null) {
      record(what.record);
    } else if (what.bookings != null) {
      List<Event.Appointment> visits = appointments(what.bookings.visits);
      write(recorder -> recorder.book(time(), visits, "--book"));
    } else if (what.diary != null) {
      String name = what.diary;
      Diary diary = DiaryFiles.read(name, streams().files()).diary();
      write(
          recorder ->
              recorder.bookedIn(
                  time(), (of, visit) -> promised(diary, of, visit), Documents.name(name)));
    } else if (what.confirmation != null) {
      Confirmation said = what.confirmation;
      write(recorder -> recorder.confirm(time(), said.teeth, said.by, "--confirm-teeth"));
    }
  }

  private void write(CourseFiles.Writing writing) throws InvalidDocumentException, StopException {
    CourseFiles.write(courseFile, writing, this);
  }

  private OffsetDateTime time() {
    return at == null
        ? OffsetDateTime.now(Clock.systemDefaultZone()).truncatedTo(ChronoUnit.SECONDS)
        : at;
  }

  private void begin(Beginning with) throws InvalidDocumentException, StopException {
    Gathering gathering = new Gathering();
    Gathering.Read<PlanFile> plan =
        gathering.read(
            () -> PlanReader.read(Documents.name(with.plan), documents().read(with.plan)));
    Gathering.Read<Chart> chart = gathering.read(() -> ChartFile.read(with.chart, documents()));
    Gathering.Read<Practice> practice = gathering.read(() -> with.practice.read(documents()));
    gathering.check();
    CourseFiles.begin(
        courseFile,
        time(),
        plan.get(),
        Documents.name(with.plan),
        chart.get(),
        practice.get(),
        this);
  }

  private void record(OfVisit what) throws InvalidDocumentException, StopException {
    @Nullable Correction correction = what.correction;
    if (correction != null && correction.entry < 2) {
      throw StopException.usage(
          "--correct: is "
              + correction.entry
              + "; the number of a visit's entry is allowed, 2 or more.");
    }
    if (correction != null && what.source.ask && correction.why.equals(Documents.STANDARD)) {
      throw StopException.usage("--why -: is not for --ask, whose answers stand there.");
    }
    if (what.diary != null) {
      // What is wrong with the diary is told before the log is written.
      DiaryFiles.read(what.diary, streams().files());
    }
    Said said = said(what.source, correction == null ? 0 : correction.entry);
    String why = correction == null ? "" : documents().said(correction.why);
    Recorder.Outcome outcome =
        CourseFiles.outcome(
            courseFile,
            recorder ->
                correction == null
                    ? recorder.record(time(), said)
                    : recorder.correct(time(), correction.entry, said, why),
            this);
    if (outcome instanceof Recorder.Refused refused && said instanceof Said.InAnswers) {
      throw StopException.usage(
          String.join("\n", refused.faults().stream().map(fault -> fault.message()).toList()));
    }
    CourseFiles.tell(courseFile, outcome, this);
    if (what.diary != null
        && outcome instanceof Recorder.Written written
        && written.entry().event() instanceof VisitDone done) {
      String caseName = CourseState.of(CourseFiles.read(courseFile, this)).course().caseName();
      DiaryFiles.done(what.diary, caseName, done.visit(), this);
    }
  }

  private Said said(Source source, int corrects) throws InvalidDocumentException, StopException {
    if (source.file != null) {
      return new Said.InDocument(Documents.name(source.file), documents().read(source.file));
    }
    VisitOptions options = source.options;
    if (options == null) {
      CourseLog log = CourseFiles.read(courseFile, this);
      options = new Questions(streams(), log, corrects, time().toLocalDate()).ask();
    } else if (options.note != null) {
      options.note = documents().said(options.note);
    }
    return new Said.InAnswers(options::tree);
  }

  private static List<Event.Appointment> appointments(List<String> bookings) throws StopException {
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

  private static Event.@Nullable Appointment promised(Diary diary, String caseName, int visit) {
    return diary
        .standing(caseName, visit)
        .filter(booking -> booking.status() == BookingStatus.PROMISED)
        .map(
            booking ->
                new Event.Appointment(
                    visit,
                    booking.start().atZone(diary.zone()).toLocalDateTime(),
                    booking.minutes(),
                    booking.clinician()))
        .orElse(null);
  }
}
