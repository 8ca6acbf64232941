package quadrille.cli.serve;

import java.io.IOException;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.DiaryWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.VisitColour;
import quadrille.cli.serve.PracticeFolder.Log;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Diary;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.course.Kit;
import quadrille.plan.course.Visit;
import quadrille.treatment.day.Coming;
import quadrille.treatment.day.PracticeDay;
import quadrille.treatment.day.Waiting;
import quadrille.treatment.record.CourseLog;

/** Who comes, what it needs, and which courses wait. */
final class TodayRoom {

  private static final LocalDate FIRST = LocalDate.of(1900, 1, 2);
  private static final LocalDate LAST = LocalDate.of(9999, 12, 30);
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final PracticeFolder folder;
  private final Clock clock;

  TodayRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  Optional<Reply> show(Request request) throws IOException {
    Set<String> unread = new LinkedHashSet<>();
    Optional<LoadedDiary> loaded = Optional.empty();
    List<String> findings = List.of();
    try {
      loaded = folder.diary().map(read -> read.asOf(clock.instant()));
      if (loaded.isPresent()) {
        findings =
            DiaryFile.audit(loaded.get(), clock.instant()).stream()
                .map(DiaryFinding::line)
                .toList();
      }
    } catch (InvalidDocumentException invalid) {
      invalid.faults().stream().map(Fault::message).forEach(unread::add);
    }
    @Nullable Diary diary = loaded.map(LoadedDiary::diary).orElse(null);
    ZoneId zone = diary == null ? clock.getZone() : diary.zone();
    LocalDateTime now = LocalDateTime.now(clock.withZone(zone));
    Optional<LocalDate> asked = day(request.query().getOrDefault("day", ""), now.toLocalDate());
    if (asked.isEmpty()) {
      return Optional.empty();
    }
    LocalDate date = asked.get();
    Map<String, Log> logs = logs(unread);
    PracticeDay day =
        PracticeDay.of(
            date, now, diary, logs.values().stream().map(Log::log).toList(), folder.lastCharted());
    List<Visit> planned =
        day.coming().stream().flatMap(one -> Stream.ofNullable(one.planned())).toList();
    UnaryOperator<String> agents =
        agent ->
            day.coming().stream()
                .map(one -> agents(one).apply(agent))
                .filter(words -> !words.equals(agent))
                .findFirst()
                .orElse(agent);
    LocalDate next = day.next();
    return Optional.of(
        Reply.html(
            Views.view(
                "today",
                new TodayPage(
                    folder.demo(),
                    DiaryWords.day(date),
                    date.equals(now.toLocalDate()),
                    date.minusDays(1).toString(),
                    date.plusDays(1).toString(),
                    next == null ? "" : DiaryWords.day(next),
                    next == null ? "" : next.toString(),
                    day.coming().stream().map(one -> visit(one, diary, logs)).toList(),
                    planned.size() < 2 ? List.of() : together(Kit.of(planned), agents),
                    groups(day.waiting(), logs),
                    findings,
                    List.copyOf(unread)))));
  }

  /** The day asked for, else today; empty where it is none. */
  private static Optional<LocalDate> day(String asked, LocalDate today) {
    if (asked.isEmpty()) {
      return Optional.of(today);
    }
    try {
      return Optional.of(LocalDate.parse(asked))
          .filter(day -> !day.isBefore(FIRST) && !day.isAfter(LAST));
    } catch (DateTimeException noDay) {
      return Optional.empty();
    }
  }

  /** By case; of a case with several, the one that began last. */
  private Map<String, Log> logs(Set<String> unread) throws IOException {
    Map<String, Log> logs = new LinkedHashMap<>();
    for (Log log : folder.logs(unread::add)) {
      logs.merge(
          log.log().planned().course().caseName(),
          log,
          (one, other) -> began(one.log()).isAfter(began(other.log())) ? one : other);
      if (log.log().torn() != null) {
        unread.add(log.name() + ": its last entry was cut off, and is missing.");
      }
    }
    return logs;
  }

  private static OffsetDateTime began(CourseLog log) {
    return log.entries().get(0).at();
  }

  private static TodayPage.Visit visit(
      Coming coming, @Nullable Diary diary, Map<String, Log> logs) {
    Visit planned = coming.planned();
    Log log = logs.get(coming.caseName());
    return new TodayPage.Visit(
        time(coming.start().toLocalTime()),
        time(coming.end().toLocalTime()),
        coming.caseName(),
        coming.visit(),
        VisitColour.styleClass(coming.visit()),
        facts(coming, diary),
        planned == null ? List.of() : MindWords.stopQuestions(planned),
        planned == null ? List.of() : tray(Kit.of(List.of(planned)), agents(coming)),
        minds(coming),
        log == null ? "" : log.id());
  }

  private static String time(LocalTime time) {
    return time.format(TIME);
  }

  private static String facts(Coming coming, @Nullable Diary diary) {
    List<String> facts = new ArrayList<>();
    facts.add(
        "visit "
            + coming.visit()
            + (coming.course() == null ? "" : " of " + coming.course().lastNumber()));
    facts.add(coming.minutes() + " min");
    Visit planned = coming.planned();
    if (planned != null) {
      facts.add(planned.injections().isEmpty() ? "nothing numb" : Words.numb(planned) + " numb");
    }
    if (coming.clinician() != null) {
      facts.add(
          diary == null ? coming.clinician() : DiaryWords.clinician(diary, coming.clinician()));
    }
    if (coming.chair() != null && diary != null) {
      facts.add(DiaryWords.chair(diary, coming.chair()));
    }
    if (coming.status() != BookingStatus.PROMISED) {
      facts.add(coming.status() == BookingStatus.HELD ? "held, not promised" : "took place");
    }
    return String.join(" · ", facts);
  }

  private static List<String> minds(Coming coming) {
    List<String> minds = new ArrayList<>();
    if (coming.log() == null) {
      minds.add("The folder has no course of this case, so what it needs is not known.");
    } else if (coming.planned() == null) {
      minds.add("The course’s plan has no such visit any more.");
    }
    if (coming.minutesShort() > 0) {
      minds.add("The plan needs " + coming.minutesShort() + " min more than is booked.");
    }
    return minds;
  }

  /** The words of a visit's agents. */
  private static UnaryOperator<String> agents(Coming coming) {
    CourseLog log = coming.log();
    return agent -> log == null ? agent : Words.agent(agent, log.practice());
  }

  private static List<String> tray(Kit kit, UnaryOperator<String> agents) {
    List<String> lines = new ArrayList<>(kit.inserts().keySet());
    lines.addAll(besideInserts(kit, agents));
    return lines;
  }

  private static List<String> besideInserts(Kit kit, UnaryOperator<String> agents) {
    List<String> lines = new ArrayList<>();
    kit.cartridges()
        .forEach(
            (agent, number) ->
                lines.add(Words.count(number, "cartridge") + " of " + agents.apply(agent)));
    if (kit.gelCartridges() > 0) {
      lines.add(Words.count(kit.gelCartridges(), "cartridge") + " of pocket gel");
    }
    if (kit.sleeves() > 0) {
      lines.add(Words.count(kit.sleeves(), "new implant sleeve"));
    }
    return lines;
  }

  private static List<String> together(Kit kit, UnaryOperator<String> agents) {
    List<String> lines = new ArrayList<>();
    lines.add(Words.count(kit.sterileSets(), "sterile set"));
    kit.inserts().forEach((insert, number) -> lines.add(number + " × " + insert));
    lines.addAll(besideInserts(kit, agents));
    return lines;
  }

  private static List<TodayPage.Group> groups(List<Waiting> waiting, Map<String, Log> logs) {
    Map<String, List<TodayPage.Line>> groups = new LinkedHashMap<>();
    for (Waiting one : waiting) {
      @Nullable Log log = logs.get(one.caseName());
      groups
          .computeIfAbsent(title(one), title -> new ArrayList<>())
          .add(new TodayPage.Line(one.caseName(), words(one), log == null ? "" : log.id()));
    }
    return groups.entrySet().stream()
        .map(group -> new TodayPage.Group(group.getKey(), group.getValue()))
        .toList();
  }

  private static String title(Waiting waiting) {
    if (waiting instanceof Waiting.ToRecord) {
      return "To be recorded";
    }
    if (waiting instanceof Waiting.ToPlanAgain) {
      return "To be planned again";
    }
    return waiting instanceof Waiting.ToBook ? "To be booked" : "To be re-evaluated";
  }

  private static String words(Waiting waiting) {
    if (waiting instanceof Waiting.ToRecord visit) {
      return "visit " + visit.visit() + ", " + DiaryWords.day(visit.day());
    }
    if (waiting instanceof Waiting.ToBook book) {
      return (book.visits().size() == 1 ? "visit " : "visits ")
          + String.join(", ", book.visits().stream().map(String::valueOf).toList());
    }
    if (waiting instanceof Waiting.ToReevaluate again) {
      return DiaryWords.day(again.from()) + " to " + DiaryWords.day(again.to());
    }
    return "work is left that is in no visit to come";
  }
}
