package quadrille.cli;

import java.io.IOException;
import java.net.BindException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.serve.DemoPractice;
import quadrille.cli.serve.PageServer;
import quadrille.cli.serve.PracticeFolder;

/** {@code quadrille serve}: a practice's folder as a page in a browser of this machine. */
@Command(
    name = "serve",
    customSynopsis = "quadrille serve [FOLDER] [OPTION ...]",
    description = {
      "Open a practice's folder in a browser on this machine: chart a mouth by keys",
      "at probing speed, read it back, and see its course at one to six visits.",
      "",
      "The folder holds everything: practice.json, charts, courses, drafts. Without",
      "one, a practice of invented patients in a temporary folder.",
      "",
      "Prints an address to open; it lets one browser after another in, and nothing",
      "beyond this machine. Ends with Ctrl-C."
    })
final class ServeCommand extends BaseCommand {

  @Parameters(
      paramLabel = "FOLDER",
      arity = "0..1",
      description = "The practice's folder; what it lacks is made.")
  @Nullable
  private String folder;

  @Option(
      names = "--port",
      order = 10,
      paramLabel = "N",
      description = "The port, 1024 to 65535; without it, one that is free.")
  @Nullable
  private Integer port;

  ServeCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws StopException {
    if (port != null && (port < 1024 || port > 65535)) {
      throw StopException.usage("--port " + port + ": must be 1024 to 65535.");
    }
    boolean demo = folder == null;
    Path root = demo ? demoFolder() : Documents.path(String.valueOf(folder));
    try {
      PracticeFolder practice = new PracticeFolder(root, streams().files(), demo);
      try {
        practice.prepare();
      } catch (IOException e) {
        throw StopException.file(root + ": cannot be written to: " + Documents.reason(e));
      }
      return serve(practice);
    } finally {
      if (demo) {
        remove(root);
      }
    }
  }

  private int serve(PracticeFolder practice) throws StopException {
    CountDownLatch end = new CountDownLatch(1);
    Interrupts.Listening listening = streams().interrupts().listen(end::countDown);
    try (PageServer server =
        PageServer.open(
            practice, port == null ? 0 : port, Clock.systemDefaultZone(), this::message)) {
      answer(
          format(Format.TEXT) == Format.JSON
              ? "{\"address\": \"" + server.address() + "\"}\n"
              : "Open " + server.address() + "\nIt is for this machine alone. Ctrl-C ends it.\n");
      if (practice.demo()) {
        begin(practice);
      }
      end.await();
    } catch (BindException taken) {
      throw StopException.file(
          "Port " + port + " is taken by another program; choose another with --port.");
    } catch (IOException e) {
      throw StopException.file("The page cannot be served: " + Documents.reason(e));
    } catch (InterruptedException ending) {
      Thread.currentThread().interrupt();
    } finally {
      listening.close();
    }
    message("Ended.");
    return Status.DONE;
  }

  private static Path demoFolder() throws StopException {
    try {
      return DemoPractice.make();
    } catch (IOException e) {
      throw StopException.file("The demo practice cannot be made: " + Documents.reason(e));
    }
  }

  /** While somebody opens the page, the demo practice begins its courses. */
  private void begin(PracticeFolder practice) {
    Thread beginning =
        new Thread(
            () -> {
              try {
                practice.beginDemo(Clock.systemDefaultZone());
              } catch (IOException ending) {
                // Without courses it is a practice all the same.
              }
            },
            "demo");
    beginning.setDaemon(true);
    beginning.start();
  }

  private void remove(Path root) {
    try {
      DemoPractice.remove(root);
    } catch (IOException left) {
      message(root + ": could not be taken away: " + Documents.reason(left));
    }
  }
}
