package quadrille.cli.serve;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWriter;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.WeeklyHours;
import quadrille.document.Expected;
import quadrille.document.FileStore;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.recording.Recorder;

/** A practice of invented patients, in a temporary folder. */
public final class DemoPractice {

  private static final List<String> CHARTS =
      List.of(
          "typical.json",
          "moderate.csv",
          "mild-one-visit.json",
          "implants-both-sides.json",
          "unprobed.json",
          "weight-missing.json",
          "heart-disease.json",
          "universal-numbering.json");

  /** Of whom courses begin: with stop questions, of several visits, of one. */
  private static final List<String> UNDER_WAY =
      List.of("heart-disease.json", "moderate.csv", "mild-one-visit.json");

  private static final int GAP = 7;
  private static final SterileStock STOCK = new SterileStock(60, List.of());

  private DemoPractice() {}

  /** Makes the folder. */
  public static Path make() throws IOException {
    Path root = Files.createTempDirectory("quadrille-demo-");
    Path charts = Files.createDirectories(root.resolve("charts"));
    for (String chart : CHARTS) {
      try (@Nullable InputStream in = DemoPractice.class.getResourceAsStream("demo/" + chart)) {
        if (in == null) {
          throw new IOException("the program lacks its demo practice");
        }
        Files.copy(in, charts.resolve(chart));
      }
    }
    return root;
  }

  /**
   * Lets the practice be under way: courses of three of its mouths begin, one of them a week ago,
   * and the diary has visits of today. Takes some seconds, since the courses are planned.
   *
   * @param root prepared as a {@link PracticeFolder}
   */
  public static void begin(Path root, FileStore files, Clock clock) throws IOException {
    ZoneId zone = clock.getZone();
    LocalDate today = LocalDate.now(clock);
    List<CourseRequest> requests = new ArrayList<>();
    List<Booking> bookings = new ArrayList<>();
    for (String name : UNDER_WAY) {
      Course course = begin(root, files, name, OffsetDateTime.now(clock).minusDays(GAP));
      if (course == null) {
        continue;
      }
      requests.add(
          CourseRequest.of(
              course,
              STOCK,
              today.minusDays(GAP),
              today.minusDays(GAP),
              Availability.ANY,
              Preferences.NONE));
      int place = requests.size();
      if (place == 1) {
        bookings.add(booking(course.visits().get(0), course, today.atTime(8, 30), "ines", clock));
      } else if (place == 2) {
        for (int i = 0; i < Math.min(2, course.visits().size()); i++) {
          bookings.add(
              booking(
                  course.visits().get(i),
                  course,
                  today.plusDays((i - 1) * GAP).atTime(11, 0),
                  "hanna",
                  clock));
        }
      }
    }
    List<WeeklyHours> hours =
        List.of(
            new WeeklyHours(
                List.of(DayOfWeek.values()), LocalTime.of(8, 0), LocalTime.of(18, 0), List.of()));
    Diary diary =
        new Diary(
            zone instanceof ZoneOffset ? ZoneId.of("UTC") : zone,
            10,
            List.of(
                clinician("hanna", "Hanna Example", hours),
                clinician("ines", "Ines Example", hours)),
            List.of(new Chair("1", "Chair 1", List.of()), new Chair("2", "Chair 2", List.of())),
            List.of(),
            STOCK,
            requests,
            bookings,
            List.of(),
            List.of());
    files.write(root.resolve(PracticeFolder.DIARY), DiaryWriter.write(diary), Expected.NOTHING);
  }

  private static Clinician clinician(String id, String name, List<WeeklyHours> hours) {
    return new Clinician(id, name, List.of(Capability.INJECT), hours, List.of(), List.of());
  }

  private static Booking booking(
      Visit visit, Course course, LocalDateTime start, String clinician, Clock clock) {
    return new Booking(
        course.caseName() + "/" + visit.number(),
        course.caseName(),
        visit.number(),
        start.atZone(clock.getZone()).toInstant(),
        visit.bookedMinutes(),
        clinician,
        clinician.equals("ines") ? "2" : "1",
        List.of(),
        visit.injections().isEmpty() ? List.of() : List.of(Capability.INJECT),
        BookingStatus.PROMISED);
  }

  private static @Nullable Course begin(Path root, FileStore files, String name, OffsetDateTime at)
      throws IOException {
    try {
      Chart chart = ChartReader.read(root.resolve("charts").resolve(name));
      Practice practice = PracticeReader.defaults();
      PlanOutcome outcome =
          new CoursePlanner(Effort.QUICK, 1).plan(chart, practice, VisitRange.USUAL);
      if (outcome instanceof PlanOutcome.Planned planned) {
        new Recorder(root.resolve("courses").resolve(chart.caseName() + ".ndjson"), files)
            .begin(at, PlanFile.of(planned.course()), chart, practice);
        return planned.course();
      }
      return null;
    } catch (InvalidDocumentException | UnworkableException wrong) {
      throw new IOException("the demo practice cannot be planned", wrong);
    }
  }

  /** Takes the folder away, with what was tried in it. */
  public static void remove(Path root) throws IOException {
    Files.walkFileTree(
        root,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes is) throws IOException {
            Files.delete(file);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path folder, @Nullable IOException wrong)
              throws IOException {
            Files.delete(folder);
            return FileVisitResult.CONTINUE;
          }
        });
  }
}
