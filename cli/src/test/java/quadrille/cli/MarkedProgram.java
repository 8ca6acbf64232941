package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.lang.reflect.Constructor;
import java.lang.reflect.Method;
import java.net.URI;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import javax.tools.ToolProvider;
import org.jspecify.annotations.Nullable;
import quadrille.cli.serve.PageServer;
import quadrille.cli.serve.PracticeFolder;
import quadrille.document.FileStore;
import quadrille.facts.chart.Tooth;

/**
 * The program once more, in which every tooth's name is marked: {@code Q14Q} where a numbering gave
 * it, {@code R14R} where {@link Tooth#toString()} did, which knows ISO 3950 only. So a tooth in an
 * output can be told from a number that looks like one. It is made from the sources of the two
 * classes that name teeth, and of those that know a line of a tooth by its first digit; it keeps
 * apart from the program that the other tests run.
 */
final class MarkedProgram {
  private static final Path SOURCES = Path.of("../solver/src/main/java/quadrille/facts/chart");

  private final ClassLoader loader;
  private final Constructor<?> streams;
  private final Method run;

  MarkedProgram(Path folder) throws ReflectiveOperationException, IOException {
    Path sources = Files.createDirectories(folder.resolve("sources/quadrille/facts/chart"));
    Path classes = Files.createDirectories(folder.resolve("classes"));
    mark(
        sources,
        "Numbering",
        "Integer.toString(this == ISO3950 ? tooth.iso() : tooth.universal())",
        "\"Q\" + (this == ISO3950 ? tooth.iso() : tooth.universal()) + \"Q\"");
    mark(sources, "Tooth", "return Integer.toString(iso());", "return \"R\" + iso() + \"R\";");
    mark(
        sources,
        "ToothLines",
        "Character.isDigit(first.text().charAt(0))",
        "first.text().charAt(0) == 'Q'");
    mark(
        sources,
        "ChartDraft",
        "Character.isDigit(line.strip().charAt(0))",
        "line.strip().charAt(0) == 'Q'");
    URL library = place(Tooth.class);
    assertEquals(
        0,
        ToolProvider.getSystemJavaCompiler()
            .run(
                null,
                null,
                null,
                "-proc:none",
                "-nowarn",
                "-d",
                classes.toString(),
                "-cp",
                String.join(
                    File.pathSeparator,
                    library.getPath(),
                    place(Nullable.class).getPath(),
                    System.getProperty("java.class.path")),
                sources.resolve("ToothLines.java").toString(),
                sources.resolve("ChartDraft.java").toString(),
                sources.resolve("Numbering.java").toString(),
                sources.resolve("Tooth.java").toString()));
    this.loader =
        new URLClassLoader(
            new URL[] {classes.toUri().toURL(), library, place(Main.class)},
            new Others(MarkedProgram.class.getClassLoader()));
    Class<?> kind = loader.loadClass(Streams.class.getName());
    this.streams =
        kind.getDeclaredConstructor(
            InputStream.class, OutputStream.class, PrintWriter.class, boolean.class);
    this.run =
        loader.loadClass(Main.class.getName()).getDeclaredMethod("run", kind, String[].class);
    streams.setAccessible(true);
    run.setAccessible(true);
  }

  /** Everybody's classes but the program's own. */
  private static final class Others extends ClassLoader {
    Others(ClassLoader all) {
      super(all);
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
      if (name.startsWith("quadrille.") || name.startsWith("gg.jte.generated.")) {
        throw new ClassNotFoundException(name);
      }
      return super.loadClass(name, resolve);
    }
  }

  private static URL place(Class<?> type) {
    return type.getProtectionDomain().getCodeSource().getLocation();
  }

  private static void mark(Path to, String type, String plain, String marked) throws IOException {
    String source = Files.readString(SOURCES.resolve(type + ".java"));
    assertTrue(source.contains(plain), type + " names teeth in another way now: " + plain);
    Files.writeString(to.resolve(type + ".java"), source.replace(plain, marked));
  }

  /** A folder's page, served as by the marked program. */
  Served serve(Path folder) {
    return inside(
        () -> {
          Class<?> files = loader.loadClass(FileStore.class.getName());
          Class<?> practice = loader.loadClass(PracticeFolder.class.getName());
          Object opened =
              practice
                  .getConstructor(Path.class, files, boolean.class)
                  .newInstance(folder, files.getField("USUAL").get(null), false);
          practice.getMethod("prepare").invoke(opened);
          Class<?> server = loader.loadClass(PageServer.class.getName());
          Clock clock = Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC);
          Consumer<String> tell = System.err::println;
          Object page =
              server
                  .getMethod("open", practice, int.class, Clock.class, Consumer.class)
                  .invoke(null, opened, 0, clock, tell);
          String address = (String) server.getMethod("address").invoke(page);
          return new Served(URI.create(address), (AutoCloseable) page);
        });
  }

  Run run(String... args) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    StringWriter err = new StringWriter();
    return inside(
        () -> {
          Object own =
              streams.newInstance(
                  new ByteArrayInputStream(new byte[0]), out, new PrintWriter(err, true), false);
          int status = (int) run.invoke(null, own, args);
          return new Run(status, out.toString(UTF_8), err.toString());
        });
  }

  private <T> T inside(Callable<T> call) {
    ClassLoader usual = Thread.currentThread().getContextClassLoader();
    Thread.currentThread().setContextClassLoader(loader);
    try {
      return call.call();
    } catch (Exception e) {
      throw new AssertionError(e);
    } finally {
      Thread.currentThread().setContextClassLoader(usual);
    }
  }
}
