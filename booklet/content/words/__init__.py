"""All words of the booklet, by language, apart from every decision."""
