package quadrille.reference;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.planning.PreparedMouth;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.Stager;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;

/**
 * Drew the frozen cases. They stay as they are when the generator changes: then this draws others.
 * Each mouth is to be done in as few visits as a quick search manages, or in one or two more.
 */
final class DrawCases {
  private static final int FEWEST_STEPS = 15;
  private static final int MOST_STEPS = 60;
  private static final int MOST_VISITS = 6;
  private static final String GEL =
      "{\"schema\": \"quadrille/practice/1\", \"gel\": {\"owned\": true}}\n";

  private final Path folder;
  private final StringBuilder index = new StringBuilder("case,visits,steps,practice\n");
  private int number;

  private DrawCases(Path folder) {
    this.folder = folder;
  }

  /**
   * @param args the folder
   */
  public static void main(String[] args)
      throws IOException, InvalidDocumentException, UnworkableException {
    DrawCases draw = new DrawCases(Path.of(args[0]));
    Files.createDirectories(draw.folder);
    Files.writeString(draw.folder.resolve("gel.json"), GEL);
    Map<Profile, Integer> wanted = new LinkedHashMap<>();
    wanted.put(Profile.TREATMENT, 8);
    wanted.put(Profile.IMPLANTS, 7);
    wanted.put(Profile.CAPPED, 6);
    wanted.put(Profile.POPULATION, 4);
    wanted.put(Profile.MILD, 2);
    wanted.put(Profile.SEVERE, 2);
    for (Map.Entry<Profile, Integer> some : wanted.entrySet()) {
      draw.draw(some.getKey(), some.getValue(), false);
    }
    draw.draw(Profile.IMPLANTS, 1, true);
    draw.draw(Profile.TREATMENT, 2, true);
    Files.writeString(draw.folder.resolve("index.csv"), draw.index);
  }

  private void draw(Profile profile, int wanted, boolean gel)
      throws IOException, InvalidDocumentException, UnworkableException {
    Practice practice = gel ? PracticeReader.read("gel.json", GEL) : PracticeReader.defaults();
    int found = 0;
    for (int seed = gel ? 100 : 0; found < wanted; seed++) {
      Chart chart = MouthGenerator.mouth(seed, profile);
      PreparedMouth mouth = new PreparedMouth(chart, practice);
      int steps = mouth.steps().size();
      boolean suits =
          steps >= FEWEST_STEPS
              && steps <= MOST_STEPS
              && (!gel || mouth.steps().stream().anyMatch(Step::gel));
      int fewest = suits ? fewestVisits(mouth) : 0;
      if (fewest > 0) {
        found++;
        number++;
        String name = String.format(java.util.Locale.ROOT, "%02d", number);
        int visits = Math.min(MOST_VISITS, fewest + number % 3);
        Files.writeString(folder.resolve(name + ".json"), ChartWriter.json(chart));
        index.append(
            name + "," + visits + "," + steps + "," + (gel ? "cases/gel.json" : "") + "\n");
      }
    }
  }

  private static int fewestVisits(PreparedMouth mouth) {
    for (int visits = 1; visits <= MOST_VISITS; visits++) {
      if (new Stager(Effort.QUICK).stage(mouth.inVisits(visits)).feasible()) {
        return visits;
      }
    }
    return 0;
  }
}
