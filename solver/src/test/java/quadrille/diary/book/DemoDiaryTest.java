package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.diary.calendar.Interval;
import quadrille.diary.calendar.Intervals;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;

/** The diary in demo-data is the one that is made, passes its audit, and is mostly full. */
final class DemoDiaryTest {

  private static final Path FILE = Path.of("..", "demo-data", "diary.json");

  @Test
  void isTheOneThatIsMade() throws Exception {
    String made = DiaryWriter.write(DemoDiary.make());
    if (Boolean.getBoolean("golden.write")) {
      Files.writeString(FILE, made);
    }
    assertEquals(made, Files.readString(FILE));
  }

  @Test
  void passesItsAuditWithItsCalendar() throws Exception {
    assertEquals(List.of(), DiaryFile.audit(DiaryFile.read(FILE)));
  }

  @Test
  void isMostlyFullForTenWeeks() throws Exception {
    LocalDate first = LocalDate.of(2026, 3, 2);
    LocalDate last = first.plusWeeks(10).minusDays(1);
    LoadedDiary loaded = DiaryFile.read(FILE);
    Diary diary = loaded.over(LoadedDiary.days(loaded.diary(), first, last));
    FreeTimes times = new FreeTimes(diary);
    List<Interval> someone = new ArrayList<>();
    List<Interval> idle = new ArrayList<>();
    for (Clinician clinician : diary.clinicians()) {
      someone.addAll(times.working(clinician, first, last));
      idle.addAll(times.ofClinician(clinician, first, last));
    }
    long open = diary.chairs().size() * minutes(Intervals.union(someone));
    long free = 0;
    for (Chair chair : diary.chairs()) {
      free += minutes(Intervals.both(idle, times.ofChair(chair, first, last)));
    }
    double share = (double) free / open;
    assertTrue(
        share > 0.15 && share < 0.35, "of the chairs' time, free and somebody there: " + share);
  }

  private static long minutes(List<Interval> spans) {
    return spans.stream().mapToLong(Interval::minutes).sum();
  }
}
