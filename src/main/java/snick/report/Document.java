package snick.report;

import java.util.List;
import snick.phrase.Words;

/**
 * A report before it is written out.
 *
 * @param words its language
 * @param title its title
 * @param lead what stands before the first section
 * @param sections the rest
 */
record Document(Words words, String title, List<Block> lead, List<Section> sections) {
  /** A titled part. */
  record Section(String title, List<Block> blocks) {
    public Section {
      blocks = List.copyOf(blocks);
    }
  }

  Document {
    lead = List.copyOf(lead);
    sections = List.copyOf(sections);
  }
}
