// SPDX-License-Identifier: ISC
/* test_instances.c - what one more instance costs in a process that has one: no file of
   the bank is opened again, and little memory is asked for.  The linker puts the functions
   here between our code and the C library (--wrap, see the Makefile), so both are counted,
   not measured. */
#include "direct.h"

#define BUNDLE FOURLIMB_BUILD "/lv2/fourlimb.lv2"

static struct {
    size_t bytes; /* asked for, freed or not */
    int files;    /* opened */
} counted;

static void* count(void* const memory, const size_t size)
{
    counted.bytes += memory ? size : 0;
    return memory;
}

#define WRAP(type, name, parameters, arguments, size)                                              \
    type __real_##name parameters;                                                                 \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return (type)count(__real_##name arguments, size);                                         \
    }

WRAP(void*, malloc, (size_t size), (size), size)
WRAP(void*, calloc, (size_t number, size_t size), (number, size), number* size)
WRAP(void*, realloc, (void* old, size_t size), (old, size), size)
WRAP(char*, strdup, (const char* text), (text), strlen(text) + 1)

FILE* __real_fopen(const char* path, const char* mode);
FILE* __wrap_fopen(const char* path, const char* mode);
FILE* __wrap_fopen(const char* const path, const char* const mode)
{
    ++counted.files;
    return __real_fopen(path, mode);
}

static BankFolder home;

static void open_one(Direct* const direct)
{
    direct_open(direct);
    counted.bytes = 0;
    counted.files = 0;
    if (!direct_instantiate(direct, BUNDLE)) {
        printf("# the plugin will not start\n");
        exit(2);
    }
}

static void close_one(Direct* const direct)
{
    direct_cleanup(direct);
    direct_close(direct);
}

static Direct first, second;

/* Its own are the engine with what it looks ahead, the phrase for a window, and the room
   for a text of 32 kB that a window may send: half of it.  Variations take 54 kB: those that
   play, and one that is made. */
enum { INSTANCE_BYTES_MOST = 192 * 1024 };

static void check_further(const char* const what)
{
    check_case("%s", what);
    open_one(&first);
    printf("# %s, the first: %zu bytes asked for, %d files opened\n", what, counted.bytes,
           counted.files);
    CHECK(counted.files > 0); /* else nothing would be counted */
    open_one(&second);
    printf("# %s, one more: %zu bytes asked for, %d files opened\n", what, counted.bytes,
           counted.files);
    CHECK_INT(counted.files, 0);
    CHECK(counted.bytes > sizeof(float) * CONTROL_COUNT);
    CHECK(counted.bytes <= INSTANCE_BYTES_MOST);
    close_one(&first);
    direct_activate(&second);
    direct_run(&second, NULL, NULL); /* the bank is still there */
    close_one(&second);
}

static void one_more_instance_reads_nothing_and_takes_little(void)
{
    check_further("the factory's bank");
}

static void so_it_is_beside_a_bank_of_the_user_s(void)
{
    static const char text[] = TTL
        ":mine a fl:FeetFigure ; fl:id 1000 ; rdfs:label \"Mine\" ;\n"
        "\tfl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 4 ; fl:steps \"O.oo\" ] .\n";
    mkdir(bank_folder_file(&home, "fourlimb"), 0700);
    bank_folder_write(&home, "fourlimb/mine.ttl", text, sizeof text - 1);
    check_further("a bank of the user's");
    remove(bank_folder_file(&home, "fourlimb/mine.ttl"));
    rmdir(bank_folder_file(&home, "fourlimb"));
}

int main(void)
{
    home = bank_folder_make();
    setenv("XDG_DATA_HOME", home.path, 1);
    RUN(one_more_instance_reads_nothing_and_takes_little);
    RUN(so_it_is_beside_a_bank_of_the_user_s);
    bank_folder_remove(&home);
    return tests_end();
}
