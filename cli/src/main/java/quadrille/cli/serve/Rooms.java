package quadrille.cli.serve;

import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.cli.serve.PracticeFolder.Mouth;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

/** Which room answers which request. */
final class Rooms implements AutoCloseable {

  private static final Map<String, String> FILES =
      Map.of(
          "diary.js", "text/javascript; charset=utf-8",
          "page.css", "text/css; charset=utf-8",
          "mouth.js", "text/javascript; charset=utf-8",
          "course.js", "text/javascript; charset=utf-8",
          "import.js", "text/javascript; charset=utf-8",
          "chair.js", "text/javascript; charset=utf-8",
          "icon.svg", "image/svg+xml");

  private final PracticeFolder folder;
  private final TodayRoom today;
  private final LogRoom log;
  private final HomeRoom home;
  private final MouthRoom mouth;
  private final CourseRoom course;
  private final PracticeRoom practice;
  private final ImportRoom taking;
  private final ChairRoom chair;
  private final DiaryRoom diary;

  Rooms(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.today = new TodayRoom(folder, clock);
    this.log = new LogRoom(folder, clock);
    this.home = new HomeRoom(folder);
    this.mouth = new MouthRoom(folder);
    this.course = new CourseRoom(folder, clock);
    this.practice = new PracticeRoom(folder, clock);
    this.taking = new ImportRoom(folder);
    this.chair = new ChairRoom(folder, clock);
    this.diary = new DiaryRoom(folder, clock);
  }

  Reply answer(Request request) {
    try {
      return found(request).orElseGet(() -> Views.notFound(folder.demo()));
    } catch (InvalidDocumentException invalid) {
      return Views.message(
          422,
          folder.demo(),
          "A file is invalid",
          invalid.faults().stream().map(Fault::message).toList());
    } catch (IOException unreadable) {
      return Views.message(
          500,
          folder.demo(),
          "A file cannot be read or written",
          List.of(PracticeFolder.reason(unreadable)));
    }
  }

  private Optional<Reply> found(Request request) throws IOException, InvalidDocumentException {
    String first = request.part(0);
    boolean reading = request.reading();
    if (request.path().isEmpty() && reading) {
      return today.show(request);
    }
    if (first.equals("practice") && request.path().size() <= 2) {
      return practice.answer(request);
    }
    if (first.equals("diary")) {
      return diary.answer(request);
    }
    if (first.equals("chair")) {
      return chair.answer(request);
    }
    if (first.equals("log")) {
      return log.answer(request);
    }
    if (request.path().size() == 1) {
      if (FILES.containsKey(first) && reading) {
        return Optional.of(file(first));
      }
      if (first.equals("import")) {
        return taking.answer(request);
      }
      if (first.equals("mouths") && reading) {
        return Optional.of(home.show());
      }
      if (first.equals("mouths") && request.is("POST")) {
        return Optional.of(mouth.begin(request));
      }
      if (first.equals("read") && request.is("POST")) {
        return Optional.of(mouth.takeIn(request));
      }
    }
    if (first.equals("mouth") && request.path().size() >= 2) {
      Optional<Mouth> named = folder.mouth(request.part(1));
      if (named.isEmpty()) {
        return Optional.empty();
      }
      return request.part(2).equals("course")
          ? course.answer(request, named.get())
          : mouth.answer(request, named.get());
    }
    return Optional.empty();
  }

  private static Reply file(String name) throws IOException {
    try (@Nullable InputStream in = Rooms.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IOException("the program lacks " + name);
      }
      return new Reply(200, String.valueOf(FILES.get(name)), in.readAllBytes(), Map.of());
    }
  }

  @Override
  public void close() {
    course.close();
  }
}
