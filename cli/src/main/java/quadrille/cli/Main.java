package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Help.ColorScheme;
import quadrille.cli.render.Messages;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ReassessKind;
import quadrille.document.FileRules;
import quadrille.document.FileStore;
import quadrille.facts.chart.Numbering;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.staging.Effort;

/** The program's entry point; the only class that touches the process. */
public final class Main {

  /** Linux names what standard error is connected to; elsewhere there is no progress. */
  private static final Path STANDARD_ERROR = Path.of("/proc/self/fd/2");

  /** What a shell answers for a process that Ctrl-C ended. */
  private static final int INTERRUPTED = 130;

  private Main() {}

  /**
   * Runs the program and ends the process with its {@linkplain Status exit status}.
   *
   * @param args the command and its arguments
   */
  public static void main(String[] args) {
    // Not System.out: a print stream swallows a full disk, and a lost result must not look done.
    FileOutputStream out = new FileOutputStream(FileDescriptor.out);
    Streams streams =
        new Streams(
            System.in,
            new BufferedOutputStream(out),
            new PrintWriter(System.err, true, UTF_8),
            Streams.welcomesStyle(
                System.console() != null, System.getenv("NO_COLOR"), System.getenv("TERM")),
            Streams.isTerminal(STANDARD_ERROR) && !"dumb".equals(System.getenv("TERM")),
            new InterruptSignal(() -> Runtime.getRuntime().halt(INTERRUPTED)),
            new FileStore(rules()),
            Clock.systemUTC(),
            SecureRandom::new,
            System.getProperty("user.name", "desk"));
    System.exit(run(streams, args));
  }

  private static FileRules rules() {
    try {
      return FileRules.of(System.getenv());
    } catch (IllegalArgumentException wrong) {
      System.err.println(Messages.clean(String.valueOf(wrong.getMessage())));
      System.exit(Status.USAGE);
      throw wrong;
    }
  }

  /**
   * Runs one command.
   *
   * @param args the command and its arguments
   * @return the exit status
   */
  static int run(Streams streams, String... args) {
    Ending ending = new Ending(streams);
    try {
      return commandLine(streams, ending).execute(args);
    } catch (Error beyond) {
      // The command's own handler sees exceptions only.
      return ending.fault(beyond, List.of(args).contains("--debug"));
    }
  }

  /** The command and its subcommands, ready to parse. */
  static CommandLine commandLine(Streams streams) {
    return commandLine(streams, new Ending(streams));
  }

  private static CommandLine commandLine(Streams streams, Ending ending) {
    ColorScheme style =
        new ColorScheme.Builder(streams.styled() ? Ansi.ON : Ansi.OFF)
            .commands(Ansi.Style.bold)
            .options(Ansi.Style.bold)
            .parameters(Ansi.Style.bold)
            .build();
    CommandLine quadrille =
        withHelp(new CommandLine(new QuadrilleCommand()))
            .addSubcommand(withHelp(new CommandLine(new ChartCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new CheckCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new PlanCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new CompareCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new AuditCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new KitCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new BookCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new RebookCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new CallOffCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new MoveCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new HoldCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new PromiseCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new DoneCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new EndCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new UndoCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new ForgetCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new CalibrateCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new DiaryCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new PageCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new RecordCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new ReassessCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new PracticeCommand(streams))))
            .addSubcommand(withHelp(new CommandLine(new ServeCommand(streams))));
    return quadrille
        .setOut(new PrintWriter(streams.out(), true, UTF_8))
        .setErr(streams.err())
        .setColorScheme(style)
        // A file's name may start with an at sign.
        .setExpandAtFiles(false)
        .registerConverter(Format.class, Format::of)
        .registerConverter(Numbering.class, Format::numbering)
        .registerConverter(PageKind.class, Pages::kind)
        .registerConverter(ProgressKind.class, Pages::progressKind)
        .registerConverter(ReassessKind.class, Pages::reassessKind)
        .registerConverter(Language.class, Pages::language)
        .registerConverter(Effort.class, SearchOptions::effort)
        .registerConverter(VisitRange.class, Visits::range)
        .registerConverter(LocalDate.class, Days::day)
        .registerConverter(OffsetDateTime.class, Days::moment)
        .setParameterExceptionHandler(ending)
        .setExecutionExceptionHandler(ending);
  }

  private static CommandLine withHelp(CommandLine command) {
    return command.addMixin("help", new HelpOptions());
  }
}
