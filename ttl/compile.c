// SPDX-License-Identifier: ISC
/* compile.c - build tool: reads a bank folder and writes what it holds to standard output,
   as the C source of compiled_factory.  Usage: compile BANK_FOLDER > SOURCE */
#include "../plugin/bank/compiled.h"
#include "../plugin/bank/stamp.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- Values as C writes them */

static void print_text(const char* const text)
{
    if (!text) {
        fputs("NULL", stdout);
        return;
    }
    putchar('"');
    for (const char* c = text; *c; ++c) {
        const unsigned char byte = (unsigned char)*c;
        if (byte < ' ' || byte == '"' || byte == '\\' || byte == '?') {
            printf("\\%03o", byte);
        } else {
            putchar(byte);
        }
    }
    putchar('"');
}

static void print_number(const double number)
{
    printf(isnan(number) ? "(double)NAN" : "%a", number);
}

/* ---- Values of each type */

/* Its strokes stand before, as HANDS_strokes_ID. */
static void print_figure(const Bank* const bank, const void* const value)
{
    (void)bank;
    const Figure* const figure = (const Figure*)value;
    printf("{%u, %d, INT64_C(%lld), INT64_C(%lld), %u, %u, %s_strokes_%u, {", figure->id,
           (int)figure->kind, (long long)figure->cycle_ticks, (long long)figure->step_ticks,
           figure->bars, figure->stroke_count, kind_rows[figure->kind].name, figure->id);
    for (int limb = 0; limb < LIMB_COUNT; ++limb) {
        printf("%d, ", figure->plays_limb[limb]);
    }
    printf("}, %d, %d},\n", figure->plays_pedal, figure->keeps_time);
}

static void print_strokes(const Figure* const figure)
{
    printf("static const Stroke %s_strokes_%u[] = {", kind_rows[figure->kind].name, figure->id);
    for (uint32_t at = 0; at < figure->stroke_count; ++at) {
        const Stroke stroke = figure->strokes[at];
        printf("{%lld, %d, %d, %d, %d},", (long long)stroke.tick, stroke.limb, stroke.voice,
               stroke.level, stroke.bends);
    }
    puts("};");
}

static void print_reference(const Library* const library, const Figure* const figure)
{
    if (figure) {
        printf("%s_values + %td, ", kind_rows[figure->kind].name,
               figure - library->figures[figure->kind]);
    } else {
        printf("NULL, ");
    }
}

static void print_feel(const WrittenFeel* const feel)
{
    const double numbers[] = {feel->looseness_ms,  feel->touch,        feel->push_hands_ms,
                              feel->push_snare_ms, feel->push_feet_ms, feel->liberty};
    putchar('{');
    print_number(feel->swing_ratio);
    printf(", %d", feel->swing_sixteenths);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; ++i) {
        printf(", ");
        print_number(numbers[i]);
    }
    putchar('}');
}

static void print_groove(const Bank* const bank, const void* const value)
{
    const Library* const library = bank_library(bank);
    const Groove* const groove = (const Groove*)value;
    printf("{%u, {%a, %d}, %a, %u, {", groove->id, groove->meter.beats_per_bar,
           groove->meter.beat_unit, groove->tempo, groove->form_bars);
    for (int bar = 0; bar < FORM_BARS_MAX; ++bar) {
        printf("%d, ", groove->form[bar]);
    }
    printf("}, {");
    for (int part = 0; part < PARTS_MAX; ++part) {
        putchar('{');
        print_reference(library, groove->parts[part].hands);
        print_reference(library, groove->parts[part].feet);
        printf("%d}, ", groove->parts[part].ride_on);
    }
    printf("}, ");
    print_reference(library, groove->turnaround);
    print_feel(&groove->feel);
    printf(", %d},\n", groove->crash_start);
}

static void print_kit(const Bank* const bank, const void* const value)
{
    (void)bank;
    const Kit* const kit = (const Kit*)value;
    printf("{%u, {", kit->id);
    for (int voice = 0; voice < VOICE_COUNT; ++voice) {
        printf("%d, ", kit->notes[voice]);
    }
    puts("}},");
}

typedef struct {
    const char* type;
    void (*print)(const Bank* bank, const void* value);
} TypeRow;

#define TYPE(NAME, name, class, Type, type, ...) [ENTRY_##NAME] = {#Type, print_##type},
static const TypeRow types[ENTRY_KINDS] = {ENTRY_KIND_ROWS(TYPE)};
#undef TYPE

/* C has no empty lists. */
static void print_list(const Bank* const bank, const EntryKind kind, const char* const type,
                       const char* const suffix,
                       void (*const print)(const Bank* bank, EntryKind kind, uint32_t index))
{
    printf("static const %s %s_%s[] = {\n", type, kind_rows[kind].name, suffix);
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        print(bank, kind, i);
    }
    puts(bank_count(bank, kind) ? "};\n" : "{0}};\n");
}

static void print_value(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    types[kind].print(bank, bank_value(bank, kind, bank_entry(bank, kind, index)->id));
}

static void print_values(const Bank* const bank, const EntryKind kind)
{
    for (uint32_t i = 0; kind < (EntryKind)FIGURE_KINDS && i < bank_count(bank, kind); ++i) {
        print_strokes((const Figure*)bank_value(bank, kind, bank_entry(bank, kind, i)->id));
    }
    print_list(bank, kind, types[kind].type, "values", print_value);
}

/* ---- What is told of them */

static void print_info(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    const EntryInfo* const info = bank_entry(bank, kind, index);
    const char* const texts[] = {info->name,       info->where,   info->uri,
                                 info->label,      info->comment, info->family,
                                 info->family_uri, info->differs, info->alone};
    printf("{%u, ", info->id);
    for (size_t text = 0; text < sizeof texts / sizeof *texts; ++text) {
        print_text(texts[text]);
        printf(", ");
    }
    printf("%d, %d, %d, %d},\n", info->tempo_low, info->tempo_high, info->is_users,
           info->is_sessions);
}

static void print_named(const Bank* const bank, const EntryKind kind, const uint32_t index)
{
    const Named* const named = &bank_entries(bank, kind)->by_uri[index];
    putchar('{');
    print_text(named->uri);
    printf(", %u},\n", named->index);
}

/* Those that left, with an index by URI. */
static void print_left(const Bank* const bank, const EntryKind kind)
{
    const Entries* const entries = bank_entries(bank, kind);
    const char* const name = kind_rows[kind].name;
    printf("static const Successor %s_left[] = {{0, 0, 0}", name);
    for (uint32_t i = 0; i < entries->left.count; ++i) {
        const Successor left = entries->left.rows[i];
        printf(", {%u, %u, %d}", left.id, left.by, left.ride_on);
    }
    printf("};\nstatic const Named %s_left_named[] = {{NULL, 0}", name);
    for (uint32_t i = 0; i < entries->left.count; ++i) {
        printf(", {");
        print_text(entries->left_by_uri[i].uri);
        printf(", %u}", entries->left_by_uri[i].index);
    }
    puts("};");
}

static void print_described(const DescribedList* const list)
{
    puts("static const Described described[] = {");
    for (uint32_t i = 0; i < list->count; ++i) {
        putchar('{');
        print_text(list->rows[i].uri);
        printf(", ");
        print_text(list->rows[i].file);
        printf(", ");
        print_text(list->rows[i].label);
        puts("},");
    }
    puts("};\n");
}

static void print_compiled(const Bank* const bank, const uint64_t contents)
{
    const DescribedList* const list = bank_described(bank);
    printf("const Compiled compiled_factory = {\nUINT64_C(%llu),\n{described, %u, %u, %zu, "
           "%zu},\n{\n",
           (unsigned long long)contents, list->count, list->files, list->bytes, list->statements);
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const char* const name = kind_rows[kind].name;
        printf("{%s_infos, %s_values, %s_named, %u, {%s_left + 1, %u}, %s_left_named + 1},\n", name,
               name, name, bank_count(bank, (EntryKind)kind), name,
               bank_entries(bank, (EntryKind)kind)->left.count, name);
    }
    puts("}};");
}

int main(const int argc, const char* const* const argv)
{
    Bank* const bank = argc == 2 ? bank_open((BankSources){.factory = argv[1]}) : NULL;
    if (!bank || bank_diagnostics(bank)->count) {
        fprintf(stderr, "%s\n",
                bank ? bank_diagnostics(bank)->texts[0] : "usage: compile BANK_FOLDER > SOURCE");
        return 1;
    }
    puts(
        "/* Made by ttl/compile.c of the bank's Turtle. */\n#include \"plugin/bank/compiled.h\"\n\n"
        "#include <math.h>\n#include <stddef.h>\n");
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        print_values(bank, (EntryKind)kind);
        print_list(bank, (EntryKind)kind, "EntryInfo", "infos", print_info);
        print_list(bank, (EntryKind)kind, "Named", "named", print_named);
        print_left(bank, (EntryKind)kind);
    }
    print_described(bank_described(bank));
    print_compiled(bank, stamp_contents(argv[1]));
    bank_free(bank);
    return ferror(stdout) || fflush(stdout) ? 1 : 0;
}
