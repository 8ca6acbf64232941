package quadrille.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.render.SamplePlan;
import quadrille.diary.book.Diary;
import quadrille.diary.file.DiaryFile;
import quadrille.document.InvalidDocumentException;

/** The demo diary and the sample plan in a folder of their own. */
abstract class AtTheDesk {

  @TempDir Path folder;

  String plan = "";
  Path diary = Path.of("");

  /** The demo diary, with the calendar that it names. */
  static Path copyDiary(Path folder) throws IOException {
    Files.copy(Path.of(Golden.demo("hanna.ics")), folder.resolve("hanna.ics"));
    return Files.copy(Path.of(Golden.demo("diary.json")), folder.resolve("diary.json"));
  }

  @BeforeEach
  void open() throws IOException {
    plan = Files.writeString(folder.resolve("plan.json"), SamplePlan.text()).toString();
    diary = copyDiary(folder);
  }

  final Run book(String... more) {
    return run(List.of("book", plan, "--diary", diary.toString(), "--from", "2026-03-02"), more);
  }

  final Run rebook(String... more) {
    return run(List.of("rebook", diary.toString(), "--from", "2026-03-02"), more);
  }

  private static Run run(List<String> args, String... more) {
    List<String> all = new ArrayList<>(args);
    all.addAll(List.of(more));
    return Run.of(all.toArray(String[]::new));
  }

  final Diary read() throws IOException, InvalidDocumentException {
    return DiaryFile.read(diary).diary();
  }
}
