-- against serial-adder n=4: wrong, carry-dropped
library ieee;
use ieee.std_logic_1164.all;

entity full_adder is
  port (x, y, z : in std_logic; s, co : out std_logic);
end entity;
architecture gates of full_adder is
begin
  s <= x xor y xor z;
  co <= (x and y) or (x and z) or (y and z);
end architecture;

library ieee;
use ieee.std_logic_1164.all;

entity right_shift is
  generic (n : positive := 4);
  port (ck, en, d : in std_logic; q : out std_logic_vector(n - 1 downto 0));
end entity;
architecture rtl of right_shift is
  signal r : std_logic_vector(n - 1 downto 0) := (others => '0');
begin
  process (ck) begin
    if rising_edge(ck) and en = '1' then
      r <= d & r(n - 1 downto 1);
    end if;
  end process;
  q <= r;
end architecture;

library ieee;
use ieee.std_logic_1164.all;

entity adder is
  port (ck, shift, a_in, b_in : in std_logic;
        sum : out std_logic_vector(3 downto 0); carry : out std_logic);
end entity;
architecture structure of adder is
  signal a, b : std_logic_vector(3 downto 0);
  signal s, co : std_logic;
  signal c : std_logic_vector(0 downto 0) := "0";
begin
  reg_a : entity work.right_shift port map (ck => ck, en => shift, d => a_in, q => a);
  reg_b : entity work.right_shift port map (ck => ck, en => shift, d => b_in, q => b);
  reg_s : entity work.right_shift port map (ck => ck, en => shift, d => s, q => sum);
  add : entity work.full_adder port map (x => a(0), y => b(0), z => '0', s => s, co => co);
  process (ck) begin
    if rising_edge(ck) and shift = '1' then
      c(0) <= co;
    end if;
  end process;
  carry <= c(0);
end architecture;
