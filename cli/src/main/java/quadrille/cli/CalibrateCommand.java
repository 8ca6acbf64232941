package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.CalibrationJson;
import quadrille.cli.render.CalibrationText;
import quadrille.cli.render.CalibrationWords;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.facts.practice.PracticeWriter;
import quadrille.treatment.calibration.Calibration;
import quadrille.treatment.calibration.Calibrator;
import quadrille.treatment.record.CourseLog;

/** {@code quadrille calibrate}: a practice's own times, from its recorded courses. */
@Command(
    name = "calibrate",
    customSynopsis = "quadrille calibrate COURSE ... [OPTION ...]",
    description = {
      "Learn the practice's own times from recorded courses.",
      "",
      "Says how each time compares with the practice file's, how sure that is, and",
      "whether visits ended in the time they were booked for. With -o, writes a",
      "practice file with the calibrated times, to be given to plan."
    })
final class CalibrateCommand extends BaseCommand {

  @Parameters(paramLabel = "COURSE", arity = "1..*", description = "Course files, as record keeps.")
  private List<String> courseFiles = List.of();

  @Option(
      names = "--practice",
      order = 10,
      paramLabel = "FILE",
      description =
          "The practice file before any calibration, which holds until records say otherwise;"
              + " without one, the default practice.")
  @Nullable
  private String practiceFile;

  @Option(
      names = "--clinician",
      order = 11,
      paramLabel = "NAME",
      description = "Write the practice file with the times of this clinician; needs -o.")
  @Nullable
  private String clinician;

  @Mixin private OutputOption output = new OutputOption();

  CalibrateCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    output.checkBesideReport();
    output.checkJson();
    if (clinician != null && !output.toFile()) {
      throw StopException.usage("--clinician: is about the file to write; name it with -o.");
    }
    if (output.toFile()) {
      List<String> inputs = new ArrayList<>(courseFiles);
      if (practiceFile != null) {
        inputs.add(practiceFile);
      }
      output.check(inputs.toArray(new String[0]));
    }
    Gathering gathering = new Gathering();
    List<Gathering.Read<CourseLog>> courses = new ArrayList<>();
    for (String file : courseFiles) {
      courses.add(gathering.read(() -> CourseFiles.read(file, this)));
    }
    String given = practiceFile;
    Gathering.Read<Practice> practice =
        gathering.read(
            () ->
                given == null
                    ? PracticeReader.defaults()
                    : PracticeReader.read(Documents.name(given), documents().read(given)));
    gathering.check();

    List<String> already =
        new ArrayList<>(
            Calibrator.calibratedAlready(practice.get()).stream()
                .map(CalibrationWords::time)
                .toList());
    if (practice.get().minutes().spreadSigma().calibrated()) {
      already.add("spread");
    }
    if (!already.isEmpty()) {
      throw StopException.usage(
          "--practice: has times that were calibrated before ("
              + String.join("; ", already)
              + "); the visits behind them would count twice. Give the practice's own file.");
    }
    Calibration calibration =
        Calibrator.calibrate(practice.get(), courses.stream().map(Gathering.Read::get).toList());
    write(calibration);
    answer(
        format(Format.TEXT) == Format.JSON
            ? CalibrationJson.of(calibration)
            : CalibrationText.of(calibration, streams().styled()));
    return Status.DONE;
  }

  private void write(Calibration calibration) throws StopException {
    if (!output.toFile()) {
      return;
    }
    if (calibration.visits() == 0) {
      throw StopException.refused(
          "No recorded visit says anything about times, so " + output.name() + " is not written.");
    }
    if (clinician != null
        && calibration.clinicians().stream().noneMatch(one -> one.name().equals(clinician))) {
      throw StopException.usage(
          "--clinician: no visit of "
              + clinician
              + " is recorded; there are "
              + String.join(
                  ", ",
                  calibration.clinicians().stream()
                      .map(Calibration.ClinicianLearned::name)
                      .toList())
              + ".");
    }
    String text = PracticeWriter.text(calibration.practice(clinician));
    try {
      PracticeReader.read(output.name(), text);
    } catch (InvalidDocumentException unfit) {
      throw StopException.refused(
          "The calibrated times make no practice file that plan accepts: " + unfit.getMessage());
    }
    output.write(documents(), text);
    message(output.name() + ": wrote the practice file.");
  }
}
