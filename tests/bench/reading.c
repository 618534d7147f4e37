// SPDX-License-Identifier: ISC
/* Reads a bank of one shape and size, for tests/checks/linear.sh to count what it costs.
   Usage: reading SHAPE SIZE */
#include "../bank/bank_folder.h"

#include "../../plugin/bank/session.h"
#include "../../plugin/bank/write_figure.h"

static const char prefixes[] = "@prefix fl: <urn:fourlimb:terms#> .\n"
                               "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .\n"
                               "@prefix t: <urn:test:> .\n";

static void put_figure(FILE* const file, const int i)
{
    fprintf(
        file,
        "t:figure%d a fl:FeetFigure ; fl:id %d ; rdfs:label \"Figure %d\" ;\n"
        "\trdfs:comment \"One of many\" ; fl:tempoLow 90 ;\n"
        "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.o.\" ] ,\n"
        "\t\t[ fl:limb fl:leftFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \".o.o\" ] .\n",
        i, ID_FIRST_OWN + i, i);
}

static void put_figures(FILE* const file, const int size)
{
    for (int i = 0; i < size; ++i) {
        put_figure(file, i);
    }
}

/* Each groove names its own figure. */
static void put_grooves(FILE* const file, const int size)
{
    put_figures(file, size);
    for (int i = 0; i < size; ++i) {
        fprintf(file,
                "t:groove%d a fl:Groove ; fl:id %d ; rdfs:label \"Groove %d\" ; fl:tempo 120 ;\n"
                "\tfl:beatsPerBar 4 ; fl:beatUnit 4 ; fl:form \"A\" ;\n"
                "\tfl:part [ fl:letter \"A\" ; fl:feet t:figure%d ] .\n",
                i, ID_FIRST_OWN + i, i, i);
    }
}

static void put_strangers(FILE* const file, const int size)
{
    for (int i = 0; i < size; ++i) {
        fprintf(file, "t:s%d t:p t:o%d .\n", i, i);
    }
}

static void put_one_subject(FILE* const file, const int size)
{
    fputs("t:s t:p 1", file);
    for (int i = 2; i < size; ++i) {
        fprintf(file, " , %d", i);
    }
    fputs(" .\n", file);
}

static void put_nonsense(FILE* const file, const int size)
{
    for (int i = 0; i < size; ++i) {
        fputs("this is not Turtle\n", file);
    }
}

/* No sentence ends: each goes on until it is nested too deep. */
static void put_unended(FILE* const file, const int size)
{
    for (int i = 0; i < size; ++i) {
        fprintf(file, "t:s%d t:p ( t:o\n", i);
    }
}

static void put_prefixes(FILE* const file, const int size)
{
    for (int i = 0; i < size; ++i) {
        fprintf(file, "@prefix p%d: <urn:p:%d> .\n", i, i);
    }
    for (int i = 0; i < size; ++i) {
        fprintf(file, "p%d:s p%d:p p%d:o .\n", i, i, i);
    }
}

/* Every figure is wrong in every line. */
static void put_wrong(FILE* const file, const int size)
{
    for (int i = 0; i < size; ++i) {
        fprintf(
            file,
            "t:figure%d a fl:FeetFigure ; fl:id %d ; rdfs:label \"Figure %d\" ;\n"
            "\tfl:line [ fl:limb fl:noFoot ; fl:voice t:kick ; fl:grid 99 ; fl:steps \"x\" ] .\n",
            i, ID_FIRST_OWN + i, i);
    }
}

static void put_nothing(FILE* const file, const int size)
{
    (void)file;
    (void)size;
}

static const struct {
    const char* name;
    void (*put)(FILE* file, int size);
} shapes[] = {
    {"figures", put_figures},     {"grooves", put_grooves},   {"strangers", put_strangers},
    {"subject", put_one_subject}, {"nonsense", put_nonsense}, {"unended", put_unended},
    {"prefixes", put_prefixes},   {"wrong", put_wrong},       {"files", put_nothing},
    {"session", put_figures},
};

static FILE* create(const BankFolder* const folder, const char* const name)
{
    FILE* const file = fopen(bank_folder_file(folder, name), "w");
    if (!file) {
        exit(2);
    }
    fputs(prefixes, file);
    return file;
}

static void put_files(const BankFolder* const folder, const int size)
{
    for (int i = 0; i < size; ++i) {
        char name[32];
        snprintf(name, sizeof name, "f%04d.ttl", i);
        FILE* const file = create(folder, name);
        put_figure(file, i);
        fclose(file);
    }
}

static const char nowhere[] = "/nowhere/at/all"; /* no factory's bank is in the way */

/* What an instance does with the folder. */
static bool instantiate(const BankFolder* const folder)
{
    Session session;
    const bool good = session_init(&session, (BankSources){nowhere, folder->path, NULL});
    printf("# %u feet, %zu complaints, the first: %s\n", bank_count(session.bank, ENTRY_FEET),
           bank_diagnostics(session.bank)->count + bank_diagnostics(session.bank)->unkept,
           bank_diagnostics(session.bank)->count ? bank_diagnostics(session.bank)->texts[0]
                                                 : "none");
    session_clear(&session);
    return good;
}

/* What it does with a session that has all entries of the folder itself. */
static bool restore(const BankFolder* const folder)
{
    static char text[1 << 20];
    FILE* const file = fopen(bank_folder_file(folder, "shape.ttl"), "r");
    text[file ? fread(text, 1, sizeof text - 1, file) : 0] = '\0';
    Session session;
    SessionTexts texts;
    for (int i = 0; i < TEXTS; ++i) {
        texts.of[i] = strdup(i == TEXT_OWN ? text : "");
    }
    const bool good = file && fclose(file) == 0 &&
                      session_init(&session, (BankSources){nowhere, NULL, NULL}) &&
                      session_restore(&session, &texts);
    printf("# %u feet\n", bank_count(session.bank, ENTRY_FEET));
    session_clear(&session);
    return good;
}

int main(const int argc, const char* const* const argv)
{
    const int size = argc == 3 ? atoi(argv[2]) : 0;
    const BankFolder folder = bank_folder_make();
    bool good = false;
    for (size_t i = 0; size && i < sizeof shapes / sizeof *shapes; ++i) {
        if (!strcmp(shapes[i].name, argv[1])) {
            FILE* const file = create(&folder, "shape.ttl");
            shapes[i].put(file, size);
            fclose(file);
            if (!strcmp(argv[1], "files")) {
                put_files(&folder, size);
            }
            good = strcmp(argv[1], "session") ? instantiate(&folder) : restore(&folder);
        }
    }
    bank_folder_remove(&folder);
    return good ? 0 : 2;
}
